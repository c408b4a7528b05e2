package main

import (
	"sort"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"hushwake/path/study/draws"
)

// commands are all commands, in the order of an owner's job: write, check, choose, look closer, prove.
func commands(c *common) []*cobra.Command {
	return []*cobra.Command{
		newStart(c), newCheck(c), newCompare(c), newExplain(c), newLine(c), newSource(c), newPanel(c), newEnclosure(c),
		newSize(c), newSweep(c), newEnquiry(c), newSurvey(c), newCalibrate(c), newVerify(c),
	}
}

func drawFlags(f *pflag.FlagSet, d *draws.Options) {
	f.Uint64Var(&d.Seed, "seed", draws.DefaultSeed, "seed of the draws; the same seed prints the same bytes")
	f.IntVar(&d.N, "draws", draws.DefaultNumber, "number of draws")
}

func sortDown(v []float64) { sort.Sort(sort.Reverse(sort.Float64Slice(v))) }
