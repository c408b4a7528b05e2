package report

import (
	"encoding/json"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile"
	"hushwake/path/report/form"
	"hushwake/path/report/reporttest"
	"hushwake/path/study/readings"
	"hushwake/source/said"
	"hushwake/testdata"
)

// An owner's name is told as it is in any units, though it holds figures with units, braces or verbs; the quantities
// beside it are told in the units asked for.
func TestNamesAreNoQuantities(t *testing.T) {
	const layout, engine, part = "30 kW box at 5 kPa", "76 kW set of 250 °C", "2 m of {5 kg} pipe %.0f"
	text, err := testdata.Files.ReadFile("dry-stack.yaml")
	require.NoError(t, err)
	b, err := boatfile.Load("dry-stack.yaml", []byte(strings.NewReplacer("as found", layout, "main", engine, "double bellows", `"`+part+`"`).Replace(string(text))))
	require.NoError(t, err)
	known, err := readings.Know(b, someDraws())
	require.NoError(t, err)
	w, err := NewComparison(b, b.Layouts, 0, known)
	require.NoError(t, err)
	whole := strings.Join(append(w.Warnings(reporttest.Imperial), flat(w.Text(reporttest.Imperial))), "\n")
	for _, c := range w.cautions(allNames, reporttest.Imperial) {
		whole += c.Text + c.Action + "\n"
	}
	assert.Contains(t, whole, layout)
	assert.Contains(t, whole, engine)
	assert.Contains(t, strings.ToLower(whole), part)
	assert.Contains(t, whole, " °F outside at rated")
	for _, figure := range []string{"40 hp", "40.2 hp", "20.1 in H₂O", "20 in H₂O", "101.9 hp", "102 hp", "482 °F", "6.6 ft of", "11 lb"} {
		assert.NotContains(t, whole, figure)
	}
	assert.False(t, said.Foreign(form.Visible(whole)))
	raw, err := json.Marshal(w.Document())
	require.NoError(t, err)
	assert.NotContains(t, said.Plain(string(raw)), "\ufdd0")
}

// What is odd about a file is told in the units asked for too, but for what the owner wrote.
func TestWarningsOfTheFileInOtherUnits(t *testing.T) {
	text, err := testdata.Files.ReadFile("dry-stack.yaml")
	require.NoError(t, err)
	line := regexp.MustCompile(`back_pressure_limit: [^\n,}#]+`)
	require.True(t, line.Match(text))
	b, err := boatfile.Load("dry-stack.yaml", line.ReplaceAll(text, []byte("back_pressure_limit: 1 kPa ")))
	require.NoError(t, err)
	w := &Comparison{Boat: b}
	for _, all := range [][]string{w.Warnings(reporttest.Imperial), Brief{Comparison: w}.Warnings(reporttest.Imperial)} {
		require.Contains(t, strings.Join(all, "\n"), `a back-pressure limit of "1 kPa" (4 in H₂O) is lower than engines need (12 to 60.2 in H₂O is usual)`)
	}
	require.Contains(t, form.Visible(strings.Join(w.Warnings(form.Units{}), "\n")), `"1 kPa" (1 kPa) is lower than engines need (3 to 15 kPa is usual)`)
}

// Whoever writes the marks of a program into a file is told where.
func TestForeignMarksAreRefused(t *testing.T) {
	text, err := testdata.Files.ReadFile("dry-stack.yaml")
	require.NoError(t, err)
	for _, name := range []string{"\ufdd05 kPa\ufdd1", `\ufdd05 kPa`, `5 kPa\uFDD1`} {
		_, err := boatfile.Load("dry-stack.yaml", []byte(strings.Replace(string(text), "name: as found", `name: "`+name+`"`, 1)))
		require.ErrorContains(t, err, "U+FDD0", "%q", name)
		require.ErrorContains(t, err, "hint: take them out")
	}
}
