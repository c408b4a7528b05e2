package boatfile

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/structure"
)

// What the file says of hull, feet and plates arrives in SI; soft mounts on a rigid shaft are warned of.
func TestStanding(t *testing.T) {
	text, err := os.ReadFile(data + "everything.yaml")
	require.NoError(t, err)
	b, err := Load("everything.yaml", text)
	require.NoError(t, err)
	main, set := b.Layouts[0].Engines[0], b.Layouts[0].Engines[1]
	assert.Equal(t, "steel", b.Hull.Material)
	assert.InDelta(t, 0.006, b.Hull.Plate, 1e-12)
	assert.InDelta(t, 861.8, main.Mass, 0.1)
	assert.Equal(t, structure.Rubber, main.Mounts.Kind)
	assert.Equal(t, 6, main.Mounts.Count)
	assert.InDelta(t, 12, main.Mounts.NaturalFrequency(main.Mass), 1e-9, "the stated frequency stands")
	assert.Equal(t, structure.Bridges{Shaft: "flexible coupling", Exhaust: "bellows", Pipes: "hose"}, main.Bridges)
	assert.Equal(t, structure.Bed{Depth: 0.2, Width: 0.012, Cap: 0.012}, main.Bed)
	assert.InDelta(t, 3e5, set.Mounts.Stiffness, 1e-6)
	assert.InDelta(t, structure.StiffnessFrequency(3e5, structure.RubberStiffening, 50), set.Mounts.NaturalFrequency(200), 1e-9)
	assert.Equal(t, 88.0, set.FootVelocity[0])
	box := b.Layouts[0].Enclosures[0].Mounts
	assert.Equal(t, structure.Soft, box.Kind)
	house := b.Layouts[0].Spaces[1].Plating
	require.NotNil(t, house.Lined)
	assert.True(t, *house.Lined)
	assert.Equal(t, structure.FloatFloor, house.Floating)
	assert.Equal(t, []float64{95, 62, 98}, []float64{b.Readings[0].Loudspeaker.Room[0], b.Readings[0].Loudspeaker.Seat[0], b.Readings[0].Loudspeaker.Running[0]})
	soft := strings.Replace(string(text), "mounts: {kind: rubber, deflection: 2.5 mm, frequency: 12 Hz, count: 6}", "mounts: {kind: soft, deflection: 6 mm}", 1)
	soft = strings.Replace(soft, "shaft: flexible coupling", "shaft: rigid", 1)
	b, err = Load("soft.yaml", []byte(strings.Replace(soft, "hull: {material: steel", "hull: {material: sandwich", 1)))
	require.NoError(t, err)
	warnings := strings.Join(b.Warnings, "\n")
	assert.Contains(t, warnings, "soft mounts with a rigid shaft")
	assert.Contains(t, warnings, "sandwich")
}
