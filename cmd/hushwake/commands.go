package main

import "github.com/spf13/cobra"

// commands are all commands, in the order of an owner's job: write, check, choose, look closer, prove.
func commands(c *common) []*cobra.Command {
	return []*cobra.Command{
		newStart(c), newOpen(c), newCheck(c), newCompare(c), newExplain(c), newLine(c), newSource(c), newPanel(c), newEnclosure(c),
		newSize(c), newChoose(c), newSweep(c), newPassage(c), newEnquiry(c), newSurvey(c), newCalibrate(c), newListen(c), newVerify(c), newSchema(c),
	}
}
