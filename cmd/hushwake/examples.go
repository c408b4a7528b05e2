package main

// examples stand in the help of each command; the files are those that start writes.
var examples = map[string]string{
	"start": `  hushwake start dry-stack
  hushwake start mine boat.yaml`,
	"open": `  hushwake open
  hushwake open dry-stack.yaml --no-browser`,
	"check": `  hushwake check dry-stack.yaml
  hushwake check --schema`,
	"compare": `  hushwake compare dry-stack.yaml
  hushwake compare generator-box.yaml --layout 1 --layout 'lined ducts' --listener pillow --full
  hushwake compare three-quotes.yaml --report page.html
  hushwake compare - < generator-box.yaml`,
	"explain": `  hushwake explain three-quotes.yaml --layout 'as is, holed' --listener 'forward cabin'`,
	"line":    `  hushwake line dry-stack.yaml --layout 1 --to '500 Hz' --format csv`,
	"source":  `  hushwake source dry-stack.yaml --units imperial`,
	"panel": `  hushwake panel '4 mm steel' '5 kg/m2 limp mat' '12 mm plywood'
  hushwake panel '6 mm glass'`,
	"enclosure": `  hushwake enclosure generator-box.yaml --layout 'lined ducts'`,
	"size": `  hushwake size generator-box.yaml --layout 'lined ducts' --element 'in-line chamber' --budget back_pressure=5kPa,length=1.2m,diameter=400mm,price=2000
  hushwake size generator-box.yaml --enclosure 'sound box' --budget level=45dBA,temperature=55C,mass=60kg`,
	"choose": `  hushwake choose choice.yaml --layout 'new line'
  hushwake choose choice.yaml --listener helm --budget price=1500,length=5m`,
	"sweep":     `  hushwake sweep three-quotes.yaml --layout 1 --from '1500 rpm'`,
	"passage":   `  hushwake passage dry-stack.yaml --layout 'as found'`,
	"enquiry":   `  hushwake enquiry three-quotes.yaml --element 'old silencer' --output ask.md`,
	"survey":    `  hushwake survey generator-box.yaml --listener pillow`,
	"calibrate": `  hushwake calibrate three-quotes.yaml --record case.yaml`,
	"listen": `  hushwake listen before.wav after.wav --boat dry-stack.yaml
  hushwake listen before.wav --rpm 1700 --cylinders 6 --level 84.5dBA`,
	"verify": `  hushwake verify
  hushwake verify --measured --samples 2`,
	"schema": `  hushwake schema compare`,
	"help":   `  hushwake help materials`,
	"completion": `  hushwake completion bash > hushwake.bash
  hushwake completion fish > hushwake.fish`,
}
