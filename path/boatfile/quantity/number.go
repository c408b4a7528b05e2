package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"hushwake/path/boatfile/spelling"
)

var Vulgar = map[rune]float64{'½': 1. / 2, '¼': 1. / 4, '¾': 3. / 4, '⅛': 1. / 8, '⅜': 3. / 8, '⅝': 5. / 8, '⅞': 7. / 8, '⅓': 1. / 3, '⅔': 2. / 3}

// leadingNumber reads a decimal number or a fraction (5/8, 1 5/8, 2-1/2, 2½) and gives what follows.
func LeadingNumber(s string) (float64, string, error) {
	s = strings.Replace(s, "\u2212", "-", 1)
	sign, body := 1.0, s
	if strings.HasPrefix(body, "-") || strings.HasPrefix(body, "+") {
		if body[0] == '-' {
			sign = -1
		}
		body = body[1:]
	}
	digits := body[:spanNumber(body)]
	rest := body[len(digits):]
	if r, size := utf8.DecodeRuneInString(rest); Vulgar[r] != 0 {
		return vulgarNumber(sign, digits, Vulgar[r], rest[size:], s)
	}
	if digits == "" {
		return 0, "", notANumber(s)
	}
	v, err := strconv.ParseFloat(digits, 64)
	if err != nil || math.IsInf(v, 0) {
		return 0, "", Bad("", "%q is no number this program can use", spelling.Clip(s))
	}
	if err := grouped(digits, rest, s); err != nil {
		return 0, "", err
	}
	v, rest, err = fraction(v, digits, rest, s)
	return sign * v, rest, err
}

func vulgarNumber(sign float64, digits string, part float64, rest, s string) (float64, string, error) {
	if digits == "" {
		return sign * part, rest, nil
	}
	v, err := strconv.ParseFloat(digits, 64)
	if err != nil {
		return 0, "", notANumber(s)
	}
	return sign * (v + part), rest, nil
}

func notANumber(s string) error {
	if l := strings.ToLower(strings.TrimLeft(s, "+-.")); strings.HasPrefix(l, "nan") || strings.HasPrefix(l, "inf") {
		return Bad("write unknown if the value isn't known", "%q is not a number that can be used", spelling.Clip(s))
	}
	return Bad("", "%q does not begin with a number", spelling.Clip(s))
}

// spanNumber gives the length of a plain decimal number at the start of s.
func spanNumber(s string) int {
	i, dots, digits := 0, 0, 0
	for i < len(s) && (s[i] >= '0' && s[i] <= '9' || s[i] == '.' && dots == 0) {
		if s[i] == '.' {
			dots++
		} else {
			digits++
		}
		i++
	}
	if digits == 0 {
		return 0
	}
	if i+1 < len(s) && (s[i] == 'e' || s[i] == 'E') {
		j := i + 1
		if s[j] == '+' || s[j] == '-' {
			j++
		}
		if k := countDigits(s[j:]); k > 0 {
			return j + k
		}
	}
	return i
}

func countDigits(s string) int {
	i := 0
	for i < len(s) && s[i] >= '0' && s[i] <= '9' {
		i++
	}
	return i
}

// grouped refuses 1,200 and 2,5 and 1 200 and 1_200, which people read in different ways.
func grouped(digits, rest, s string) error {
	if len(rest) < 2 {
		return nil
	}
	r, size := utf8.DecodeRuneInString(rest)
	next := rest[size:]
	n := countDigits(next)
	if n == 0 {
		return nil
	}
	joined := digits + next[:n]
	switch {
	case r == ',' && n == 3 && turns(next[n:]):
		return Bad("write "+joined+next[n:], "%q holds a comma; thousands are written without one", spelling.Clip(s))
	case r == ',' && n == 3:
		return Bad(fmt.Sprintf("write %s%s or %s.%s%s, whichever is meant", joined, next[n:], digits, next[:n], next[n:]), "%q holds a comma, which some read as thousands and some as decimals", spelling.Clip(s))
	case r == ',':
		return Bad(fmt.Sprintf("write %s.%s%s", digits, next[:n], next[n:]), "%q holds a comma; decimals are written with a point", spelling.Clip(s))
	case r == '.' || r == '_':
		return Bad("write "+joined+next[n:], "%q holds a separator of thousands", spelling.Clip(s))
	case unicode.IsSpace(r) && n == 3 && !strings.HasPrefix(next[n:], "/"):
		return Bad("write "+joined+next[n:], "%q holds a blank inside the number", spelling.Clip(s))
	}
	return nil
}

// turns tells whether a unit is one of engine speed, of which nobody means three decimals.
func turns(unit string) bool {
	found := lookUnit(normalUnit(unit))
	return len(found) > 0 && found[0].dim == RotationalSpeed
}

// fraction adds "5/8" of "1 5/8" or "1-5/8", or divides "5/8".
func fraction(v float64, digits, rest, s string) (float64, string, error) {
	whole := countDigits(digits) == len(digits)
	if strings.HasPrefix(rest, "/") && whole && countDigits(rest[1:]) > 0 {
		d, tail, err := denominator(rest[1:], s)
		return v / d, tail, err
	}
	t := strings.TrimLeft(rest, " \t-")
	n := countDigits(t)
	if !whole || n == 0 || len(t) == len(rest) || !strings.HasPrefix(t[n:], "/") || countDigits(t[n+1:]) == 0 {
		return v, rest, nil
	}
	num, err := strconv.ParseFloat(t[:n], 64)
	if err != nil {
		return 0, "", notANumber(s)
	}
	d, tail, err := denominator(t[n+1:], s)
	if err != nil {
		return 0, "", err
	}
	if num >= d {
		return 0, "", Bad("", "the fraction in %q is not below one", spelling.Clip(s))
	}
	return v + num/d, tail, nil
}

func denominator(t, s string) (float64, string, error) {
	n := countDigits(t)
	d, err := strconv.ParseFloat(t[:n], 64)
	if err != nil || d == 0 {
		return 1, "", Bad("", "the fraction in %q divides by nothing", spelling.Clip(s))
	}
	return d, t[n:], nil
}
