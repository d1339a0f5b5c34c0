package unit

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode"
)

// maxText bounds what is worth reading; no quantity needs more characters.
const maxText = 64

// Parse reads a quantity as typed: a number with a decimal point or comma,
// with or without a space, and a unit of that quantity. A bare number is in
// the held unit (mm for Length, percent for Percent). Lengths also take
// fractions and feet with inches: "3 1/2 in", "4'6\"".
//
// The error names the text, what was expected, and an example. Numbers that
// are not finite, or far outside what a vehicle can have, are refused. So is
// "1,250", which means 1.25 to some and 1250 to others.
func Parse(q Quantity, s string) (float64, error) {
	t, ok := q.trait()
	if !ok {
		return 0, fmt.Errorf("cannot read %q: unknown quantity", clip(s))
	}
	v, err := parse(q, s)
	if err == nil && (!finite(v) || v < t.min || v > t.max) {
		err = fmt.Errorf("out of the range %s to %s", Exact(q, t.min), Exact(q, t.max))
	}
	if err != nil {
		return 0, fmt.Errorf("cannot read %q as %s: %w; expected %s, for example %s",
			clip(s), t.noun, err, t.expected, t.example)
	}
	if v == 0 {
		return 0, nil // never minus zero
	}
	return v, nil
}

func parse(q Quantity, s string) (float64, error) {
	if len(s) > maxText {
		return 0, errors.New("text too long")
	}
	s = strings.TrimSpace(strings.ReplaceAll(s, "\u2212", "-")) // typographic minus
	if s == "" {
		return 0, errors.New("nothing written")
	}
	if q == Length {
		return parseLength(s)
	}
	n, rest, err := scanNumber(s)
	if err != nil {
		return 0, err
	}
	sc, ok := scaleOf(q, rest)
	if !ok {
		return 0, fmt.Errorf("unknown unit %q", strings.TrimSpace(rest))
	}
	v, err := n.value(sc)
	if err != nil {
		return 0, err
	}
	if q == Count && v != float64(int64(v)) {
		return 0, errors.New("not a whole number")
	}
	return v, nil
}

// parseLength adds the pieces of a length: one piece in any unit, or feet
// followed by inches.
func parseLength(s string) (float64, error) {
	var sum float64
	afterFeet := false
	for part := 0; s != ""; part++ {
		if part == 2 || part == 1 && !afterFeet {
			return 0, fmt.Errorf("unexpected %q", s)
		}
		n, rest, err := scanNumber(s)
		if err != nil {
			return 0, err
		}
		if part == 1 && n.negative() {
			return 0, fmt.Errorf("unexpected sign in %q", s)
		}
		if rest, err = n.scanFraction(rest); err != nil {
			return 0, err
		}
		end := strings.IndexFunc(rest, unicode.IsNumber)
		if end < 0 {
			end = len(rest)
		}
		name := rest[:end]
		if end < len(rest) && (strings.HasSuffix(name, ".") || strings.HasSuffix(name, ",")) {
			return 0, fmt.Errorf("%q could be a decimal, write the 0 before it", rest)
		}
		sc, ok := scaleOf(Length, name)
		if !ok {
			return 0, fmt.Errorf("unknown unit %q", strings.TrimSpace(name))
		}
		if part == 1 {
			if strings.TrimSpace(name) == "" {
				sc = scale{mul: mmPerInch} // 4'6
			} else if sc.mul != mmPerInch {
				return 0, fmt.Errorf("feet are followed by inches, not %q", strings.TrimSpace(name))
			}
		}
		v, err := n.value(sc)
		if err != nil {
			return 0, err
		}
		sum += v
		afterFeet = sc.mul == mmPerFoot
		s = strings.TrimSpace(rest[end:])
	}
	return sum, nil
}

// number is one typed number: decimal text, plus a fraction if one followed.
type number struct {
	text     string  // sign, digits and point, as strconv reads them
	exp      int     // typed exponent
	fraction float64 // what a fraction adds to the magnitude
}

func (n number) negative() bool { return strings.HasPrefix(n.text, "-") }

// value scales the number, keeping decimal exactness where there is no factor.
func (n number) value(sc scale) (float64, error) {
	v, err := strconv.ParseFloat(n.text+"e"+strconv.Itoa(n.exp+sc.exp10), 64)
	if err != nil {
		return 0, errors.New("not a usable number")
	}
	if n.fraction != 0 {
		f := n.fraction
		for range sc.exp10 { // only lengths have fractions: cm and m
			f *= 10
		}
		if n.negative() {
			f = -f
		}
		v += f
	}
	return sc.apply(v), nil
}

// scanNumber takes sign, digits, one decimal point or comma and an exponent
// from the front of s and returns what follows.
func scanNumber(s string) (number, string, error) {
	var n number
	i := 0
	if i < len(s) && (s[i] == '+' || s[i] == '-') {
		i++
	}
	first := i
	intLen, fracLen, sep := 0, 0, byte(0)
	for ; i < len(s); i++ {
		c := s[i]
		switch {
		case c >= '0' && c <= '9':
			if sep == 0 {
				intLen++
			} else {
				fracLen++
			}
			continue
		case (c == '.' || c == ',') && sep == 0:
			sep = c
			continue
		case c == '.' || c == ',':
			return n, "", errors.New("more than one decimal point or comma")
		}
		break
	}
	if intLen+fracLen == 0 {
		if f, rest, ok := vulgar(s[i:]); ok && sep == 0 {
			return number{text: s[:first] + "0", fraction: f}, rest, nil
		}
		return n, "", errors.New("it does not begin with a number")
	}
	if sep == ',' && fracLen == 3 && intLen > 0 && intLen <= 3 && s[first] != '0' {
		plain := s[first : first+intLen]
		return n, "", fmt.Errorf("the comma could mean %s.%s or %s%s, write one of them",
			plain, s[first+intLen+1:i], plain, s[first+intLen+1:i])
	}
	n.text = strings.Replace(s[:i], ",", ".", 1)
	if j, exp, ok := scanExponent(s, i); ok {
		n.exp, i = exp, j
	}
	return n, s[i:], nil
}

// scanExponent reads "e-3" at s[i:]; a bare e belongs to the unit.
func scanExponent(s string, i int) (end, exp int, ok bool) {
	if i >= len(s) || s[i] != 'e' && s[i] != 'E' {
		return i, 0, false
	}
	j := i + 1
	if j < len(s) && (s[j] == '+' || s[j] == '-') {
		j++
	}
	digits := j
	for j < len(s) && s[j] >= '0' && s[j] <= '9' {
		j++
	}
	if j == digits || j-digits > 3 {
		return i, 0, false
	}
	exp, err := strconv.Atoi(s[i+1 : j])
	return j, exp, err == nil
}

// scanFraction reads what makes n a fraction: "/2" turns a whole number into
// one half of it, " 1/2", "-1/2" and "½" are added to it.
func (n *number) scanFraction(s string) (string, error) {
	if n.exp != 0 || strings.Contains(n.text, ".") {
		return s, nil
	}
	if rest, ok := strings.CutPrefix(s, "/"); ok {
		num, err := strconv.ParseFloat(strings.TrimLeft(n.text, "+-"), 64)
		if err != nil {
			return "", errors.New("not a usable number")
		}
		den, rest, ok := scanWhole(rest)
		if !ok || den == 0 {
			return "", errors.New("unusable fraction")
		}
		if n.negative() {
			n.text = "-0"
		} else {
			n.text = "0"
		}
		n.fraction = num / den
		return rest, nil
	}
	t := strings.TrimLeft(s, " ")
	if f, rest, ok := vulgar(t); ok {
		n.fraction = f
		return rest, nil
	}
	num, rest, ok := scanWhole(strings.TrimPrefix(t, "-"))
	if !ok || len(t) == len(s) && !strings.HasPrefix(t, "-") {
		return s, nil
	}
	rest, ok = strings.CutPrefix(rest, "/")
	if !ok {
		return s, nil
	}
	den, rest, ok := scanWhole(rest)
	if !ok || den == 0 || num >= den {
		return "", errors.New("unusable fraction")
	}
	n.fraction = num / den
	return rest, nil
}

// scanWhole takes up to four digits from the front of s.
func scanWhole(s string) (v float64, rest string, ok bool) {
	i := 0
	for i < len(s) && i < 4 && s[i] >= '0' && s[i] <= '9' {
		v = v*10 + float64(s[i]-'0')
		i++
	}
	return v, s[i:], i > 0
}

// vulgar takes one of the fraction characters of an inch rule.
func vulgar(s string) (float64, string, bool) {
	for _, f := range [...]struct {
		sign string
		v    float64
	}{{"½", 1. / 2}, {"¼", 1. / 4}, {"¾", 3. / 4}, {"⅛", 1. / 8}, {"⅜", 3. / 8}, {"⅝", 5. / 8}, {"⅞", 7. / 8}} {
		if rest, ok := strings.CutPrefix(s, f.sign); ok {
			return f.v, rest, true
		}
	}
	return 0, s, false
}

// clip keeps messages readable when a whole file was pasted into a field.
func clip(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}
