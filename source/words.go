package source

import (
	"fmt"
	"strings"
)

func fmt0(x float64) string { return fmt.Sprintf("%.0f", x) }

func intsText(v []int) string {
	return strings.ReplaceAll(strings.Trim(fmt.Sprint(v), "[]"), " ", "-")
}
