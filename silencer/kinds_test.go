package silencer_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/silencer"
	"hushwake/source/spectrum"
)

// example is one element of a kind between pipes of 102 mm.
type example struct {
	name string
	make func() silencer.Element
	// bare says why there is no wall to lag, "" = there is one.
	bare string
	// turned is the same the other way round, nil = it is symmetric; oneWay says why there is no such thing.
	turned func() silencer.Element
	oneWay string
	// none is one of no length, nil = the kind has none.
	none func() silencer.Element
}

// perforateOf is the perforated tube of the examples.
func perforateOf() silencer.Perforate {
	return silencer.Perforate{Bore: 0.102, ChamberBore: 0.25, Length: 0.6, Porosity: 0.27, Hole: 3.5e-3, TubeWall: 1.5e-3, Impedance: silencer.Grazing}
}

// examples holds every kind once or more.
func examples() []example {
	bands := spectrum.Bands{3, 8, 14, 20, 24, 22, 18, 14, 12}
	overall := 22.0
	return []example{
		{name: "pipe", make: func() silencer.Element {
			return &silencer.Pipe{Bore: 0.09, Length: 1.2, Bends: []silencer.Bend{{Angle: 1.57, Radius: 0.15}}}
		}, none: func() silencer.Element { return &silencer.Pipe{Bore: 0.102} }},
		{name: "bellows", make: func() silencer.Element { return &silencer.Bellows{Bore: 0.102, Length: 0.3} },
			none: func() silencer.Element { return &silencer.Bellows{Bore: 0.102} }},
		{name: "cone", make: func() silencer.Element { return cone(0.102, 0.152, 0.3) },
			turned: func() silencer.Element { return cone(0.152, 0.102, 0.3) }, none: func() silencer.Element { return cone(0.102, 0.102, 0) }},
		{name: "elbow", make: func() silencer.Element { return &silencer.Elbow{Bore: 0.102, Angle: 1.57, Radius: 0.15} },
			none: func() silencer.Element { return &silencer.Elbow{Bore: 0.102} }},
		{name: "hose", make: func() silencer.Element {
			return &silencer.Hose{Bore: 0.127, Length: 2, Rise: -0.1, Bends: []silencer.Bend{{Angle: 0.8}}}
		}, none: func() silencer.Element { return &silencer.Hose{Bore: 0.102} }},
		{name: "chamber", make: func() silencer.Element {
			return &silencer.Chamber{Bore: 0.3, Rooms: []float64{0.9}, InletBore: 0.102, OutletBore: 0.09, InletExtension: 0.4, TubeWall: 2e-3}
		}},
		{name: "chamber of two rooms", make: func() silencer.Element {
			return &silencer.Chamber{Bore: 0.3, Rooms: []float64{0.4, 0.5}, Baffle: 3e-3, InletBore: 0.102, OutletBore: 0.102, InletOffset: 0.05, TubeWall: 2e-3,
				JoinedBy: [][]silencer.Tube{{{Bore: 0.06}, {Bore: 0.06, Wall: 2e-3, Before: 0.1, After: 0.1}}}}
		}},
		{name: "perforated", make: func() silencer.Element { return &silencer.Perforated{Perforate: perforateOf()} }},
		{name: "plugged", make: func() silencer.Element { return &silencer.Plugged{Perforate: perforateOf(), PlugAt: 0.3} }},
		{name: "packed", make: func() silencer.Element { return &silencer.Packed{Perforate: perforateOf(), FlowResistivity: 10000} }},
		{name: "quarter wave", make: func() silencer.Element { return &silencer.SideBranch{Bore: 0.06, Length: 0.4} }},
		{name: "resonator", make: func() silencer.Element { return &silencer.SideBranch{NeckBore: 0.04, NeckLength: 0.06, Volume: 6e-3} }},
		{name: "parallel", make: func() silencer.Element {
			return &silencer.Parallel{Branches: [][]silencer.Element{{&silencer.Pipe{Bore: 0.07, Length: 1}},
				{&silencer.Pipe{Bore: 0.07, Length: 0.4}, &silencer.Chamber{Bore: 0.2, Rooms: []float64{0.5}, InletBore: 0.07, OutletBore: 0.07}}}}
		}, turned: func() silencer.Element {
			return &silencer.Parallel{Branches: [][]silencer.Element{{&silencer.Pipe{Bore: 0.07, Length: 1}},
				{&silencer.Chamber{Bore: 0.2, Rooms: []float64{0.5}, InletBore: 0.07, OutletBore: 0.07}, &silencer.Pipe{Bore: 0.07, Length: 0.4}}}}
		}},
		{name: "water injection", make: func() silencer.Element { return &silencer.WaterInjection{Flow: 1e-3, Temperature: 308} }, bare: "a spray ring without length"},
		{name: "lift chamber", make: func() silencer.Element {
			return &silencer.LiftChamber{Bore: 0.35, Height: 0.5, WaterLevel: 0.12, DipBore: 0.127, DipClearance: 0.06, RiserBore: 0.127, RiserRise: 0.9}
		}, oneWay: "a chamber that lifts the wrong way"},
		{name: "riser", make: func() silencer.Element { return &silencer.Riser{Bore: 0.127, Rise: 0.3, Length: 1.2} },
			none: func() silencer.Element { return &silencer.Riser{Bore: 0.102} }},
		{name: "anti siphon", make: func() silencer.Element { return &silencer.AntiSiphon{TopOverWater: 0.45} }, bare: "it stands in the raw-water line"},
		{name: "separator", make: func() silencer.Element { return &silencer.Separator{Bore: 0.3, Height: 0.6, DrainBore: 0.076} }},
		{name: "given in octaves", make: func() silencer.Element {
			return &silencer.Given{InsertionLoss: &bands, Length: 0.9, Diameter: 0.25, Bore: 0.102, Loss: &silencer.Loss{Drop: 2000, MassFlow: 0.15, Temperature: 690, Basis: silencer.BasisHot}}
		}},
		{name: "silencer by its look", make: func() silencer.Element {
			return &silencer.ByLook{Given: silencer.Given{Look: &silencer.Look{Inside: silencer.Baffled, State: silencer.StateOld}, Length: 0.6, Diameter: 0.25, Bore: 0.102}}
		}},
		{name: "given overall", make: func() silencer.Element { return &silencer.Given{Overall: &overall} },
			none: func() silencer.Element { // what is stated to be nothing
				return &silencer.Given{Bore: 0.102, InsertionLoss: &spectrum.Bands{}, Loss: &silencer.Loss{Basis: silencer.BasisHot}}
			}},
	}
}

// Every kind of the package has an example: a new one is a row in the table.
func TestEveryKindHasAnExample(t *testing.T) {
	have := map[string]bool{}
	for _, x := range examples() {
		have[x.make().Kind()] = true
	}
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	found := 0
	visit := func(n ast.Node) bool {
		f, ok := n.(*ast.FuncDecl)
		if !ok || f.Recv == nil || f.Name.Name != "Kind" {
			return true
		}
		word, err := strconv.Unquote(f.Body.List[0].(*ast.ReturnStmt).Results[0].(*ast.BasicLit).Value)
		require.NoError(t, err)
		assert.True(t, have[word], "kind %q has no example in the table", word)
		found++
		return true
	}
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		require.NoError(t, err)
		ast.Inspect(file, visit)
	}
	assert.Equal(t, len(have), found)
}
