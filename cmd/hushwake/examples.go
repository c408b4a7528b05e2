package main

// examples stand in the help of each command; the files are those that start writes.
var examples = map[string]string{
	"start": `  hushwake start dry-stack
  hushwake start mine boat.yaml`,
	"check": `  hushwake check dry-stack.yaml
  hushwake check --schema`,
	"compare": `  hushwake compare dry-stack.yaml
  hushwake compare dry-stack.yaml --layout 1 --layout 'wet with lift chamber' --listener helm --full
  hushwake compare three-quotes.yaml --report page.html
  hushwake compare - < generator-box.yaml`,
	"explain": `  hushwake explain dry-stack.yaml --layout 'as found' --listener 'aft cabin'`,
	"line":    `  hushwake line dry-stack.yaml --layout 1 --to '500 Hz' --format csv`,
	"source":  `  hushwake source dry-stack.yaml --units imperial`,
	"panel": `  hushwake panel '4 mm steel' '5 kg/m2 limp mat' '12 mm plywood'
  hushwake panel '6 mm glass'`,
	"enclosure": `  hushwake enclosure generator-box.yaml --layout 'lined ducts'`,
	"size": `  hushwake size dry-stack.yaml --layout 'as found' --element 'old silencer' --budget back_pressure=5kPa,length=1.2m,diameter=400mm,price=2000
  hushwake size generator-box.yaml --enclosure 'sound box' --budget level=45dBA,temperature=55C,mass=60kg`,
	"sweep":     `  hushwake sweep dry-stack.yaml --layout 'as found' --from '1500 rpm'`,
	"enquiry":   `  hushwake enquiry dry-stack.yaml --element 'old silencer' --output ask.md`,
	"survey":    `  hushwake survey dry-stack.yaml --listener helm`,
	"calibrate": `  hushwake calibrate three-quotes.yaml --record case.yaml`,
	"verify": `  hushwake verify
  hushwake verify --measured --samples 2`,
	"schema": `  hushwake schema compare`,
	"help":   `  hushwake help materials`,
}
