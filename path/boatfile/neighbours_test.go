package boatfile

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/source/said"
)

// A partition between spaces too far apart for one wall is warned of with the distance: without it they would not be neighbours.
func TestPartitionBetweenSpacesApart(t *testing.T) {
	const sole = "  - {between: [engine room, wheelhouse], name: sole, area: 2 m2, build_up: [18 mm plywood]}\nlisteners:"
	said := func(changes ...string) string {
		return said.Plain(strings.Join(loaded(t, append(changes, "listeners:", sole)...).Warnings, "\n"))
	}
	assert.NotContains(t, said(), "apart", "0.1 m")
	assert.NotContains(t, said("at: [2.0 m, -1.3 m, 1.2 m]", "at: [2.0 m, -1.3 m, 1.6 m]"), "apart", "0.5 m")
	assert.Contains(t, said("at: [2.0 m, -1.3 m, 1.2 m]", "at: [2.0 m, -1.3 m, 1.8 m]"), `"engine room" and "wheelhouse" lie 700 mm apart`)
	assert.NotContains(t, said("at: [2.0 m, -1.3 m, 1.2 m], ", ""), "apart", "nobody knows")
}

// By hand: the two meet in 2 m by 2.6 m, the smaller of the faces has 2.4 m by 2.6 m.
func TestWallLargerThanWhereItsSpacesMeet(t *testing.T) {
	sole := func(area string) []string {
		return []string{"listeners:", "  - {between: [engine room, wheelhouse], name: sole, area: " + area + ", build_up: [18 mm plywood]}\nlisteners:"}
	}
	noted := func(area string) (value string) {
		for _, a := range loaded(t, sole(area)...).Assumptions {
			if a.Field == "partitions.sole area" {
				value = said.Plain(a.Value)
			}
		}
		return value
	}
	assert.Empty(t, noted("5.2 m2"))
	assert.Contains(t, noted("6 m2"), "6 m2, but the wall where engine room and wheelhouse meet has 5.2 m2")
	assert.Contains(t, noted("12.4 m2"), "has 5.2 m2")
	_, err := Load("boat.yaml", []byte(strings.NewReplacer(sole("12.6 m2")...).Replace(standing)))
	require.ErrorContains(t, err, "12.6 m2 do not fit: the wall where engine room and wheelhouse meet has 5.2 m2")
}

// Of several walls between the same spaces the error points at the one meant.
func TestOverstatedWallIsPointedAt(t *testing.T) {
	wrong := strings.Replace(standing, "listeners:", "  - {between: [engine room, outside], name: side, facing: port, area: 60 m2, build_up: [4 mm steel]}\nlisteners:", 1)
	_, err := Load("boat.yaml", []byte(wrong))
	require.ErrorContains(t, err, "boat.yaml:8:15: partitions.side: 60 m2 do not fit")
}

// A set that runs at one speed was not read at another; within a tenth it was.
func TestReadingAtASpeedThatASetNeverHas(t *testing.T) {
	with := func(speed string) error {
		set := strings.NewReplacer("speed: 3000 rpm}", "speed: 3000 rpm}, load: constant-speed",
			"layouts:", "readings: [{listener: helm, layout: dry, level: 70 dBA, running: {engine: main, speed: "+speed+"}}]\nlayouts:").Replace(standing)
		_, err := Load("boat.yaml", []byte(set))
		return err
	}
	require.NoError(t, with("2900 rpm"))
	require.ErrorContains(t, with("1800 rpm"), `readings[1].running speed: "1800 rpm" is no speed of a constant-speed set rated at 3000 rpm`)
	require.ErrorContains(t, with("3200 rpm"), "above the rated speed")
}

// An outlet too far off is warned of once, not in every layout that takes it over; at another place it is warned of again.
func TestOutletTooFarIsWarnedOfOnce(t *testing.T) {
	more := func(with string) int {
		b := loaded(t, "[3.6 m, 0.3 m, 3.9 m], pointing: up}\n", "[-9 m, 0.3 m, 0.2 m], pointing: up}\n  - {name: wet, like: dry"+with+"}\n")
		return strings.Count(strings.Join(b.Warnings, "\n"), "of pipe are not in the line")
	}
	assert.Equal(t, 1, more(""))
	assert.Equal(t, 2, more(", exhausts: {main: {outlet: {at: [-10 m, 0.3 m, 0.2 m]}}}"))
}

// An engine far outside its space and a room larger than any boat's are asked about.
func TestPlacesNobodyMeant(t *testing.T) {
	said := func(changes ...string) string {
		return said.Plain(strings.Join(loaded(t, changes...).Warnings, "\n"))
	}
	assert.NotContains(t, said(), "engine \"main\" is said")
	assert.Contains(t, said("at: [2.5 m, 0 m, 0.3 m]", "at: [8 m, 0 m, 0.3 m]"), `engine "main" is said to be in "engine room", but its position lies outside`)
	assert.NotContains(t, said(), "larger than nearly any space")
	assert.Contains(t, said("size: [2.4 m, 2.6 m, 2.0 m]", "size: [28 m, 28 m, 20 m]"), "spaces.wheelhouse: 28 m by 28 m by 20 m is larger than nearly any space in a boat (20 m by 8 m by 5 m, judgement)")
}
