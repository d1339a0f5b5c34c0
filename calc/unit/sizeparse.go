package unit

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
)

const sizeExpected = "a metric area, an AWG or an SAE gauge, for example 0.75 mm², AWG 18 or SAE 14"

// ParseSize reads a conductor size: "0.75 mm²", "0,75 mm2", "18 AWG", "AWG
// 2/0", "SAE 14". A bare decimal such as "0.75" is metric. A bare whole number
// is refused: 16 mm² carries fifteen times the current of AWG 16.
func ParseSize(s string) (Size, error) {
	v, err := parseSize(s)
	if several, ok := err.(severalSizes); ok {
		return Size{}, fmt.Errorf("%q is not clear as a conductor size: %w", clip(s), several)
	}
	if err != nil {
		return Size{}, fmt.Errorf("cannot read %q as a conductor size: %w; expected %s", clip(s), err, sizeExpected)
	}
	return v, nil
}

// severalSizes says what to write for a number that stands for several sizes.
type severalSizes string

func (s severalSizes) Error() string { return string(s) }

func parseSize(s string) (Size, error) {
	if len(s) > maxText {
		return Size{}, errors.New("text too long")
	}
	t := strings.ToUpper(strings.TrimSpace(s))
	if t == "" {
		return Size{}, errors.New("nothing written")
	}
	for _, sys := range [...]struct {
		name   string
		system SizeSystem
	}{{"AWG", AWG}, {"SAE", SAE}} {
		if rest, ok := strings.CutPrefix(t, sys.name); ok {
			return gauge(sys.system, sys.name, strings.TrimLeft(rest, " \t\u00a0-#"))
		}
		if rest, ok := strings.CutSuffix(t, sys.name); ok {
			return gauge(sys.system, sys.name, strings.TrimLeft(strings.TrimRight(rest, " \t\u00a0-"), "#"))
		}
	}
	if n, err := gaugeNumber(t); err == nil && GaugeAWG(n).Known() {
		if n <= 0 {
			return Size{}, severalSizes(fmt.Sprintf("write AWG %s or SAE %s", t, t))
		}
		return Size{}, severalSizes(fmt.Sprintf("write %s mm², AWG %s or SAE %s", t, t, t))
	}
	n, rest, err := scanNumber(strings.TrimSpace(s))
	if err != nil {
		return Size{}, err
	}
	if u := strings.ToLower(spelling.Replace(rest)); u != "" && u != "mm2" && u != "sqmm" {
		return Size{}, fmt.Errorf("unknown unit %q", strings.TrimSpace(rest))
	}
	v, err := n.value(scale{})
	if err != nil {
		return Size{}, err
	}
	if z := MM2(v); z.Known() {
		return z, nil
	}
	return Size{}, fmt.Errorf("no conductor is outside %g to %g mm²", minMM2, float64(maxMM2))
}

func gauge(sys SizeSystem, name, s string) (Size, error) {
	n, err := gaugeNumber(s)
	if err != nil {
		return Size{}, err
	}
	z := Size{sys, float64(n)}
	if !z.Known() {
		return Size{}, fmt.Errorf("there is no %s %s", name, gaugeText(n))
	}
	return z, nil
}

// gaugeNumber reads "18", "2/0", "00" or "0".
func gaugeNumber(s string) (int, error) {
	if zeros, ok := strings.CutSuffix(s, "/0"); ok {
		if len(zeros) == 1 && zeros[0] >= '1' && zeros[0] <= '4' {
			return 1 - int(zeros[0]-'0'), nil
		}
		return 0, errors.New("only 1/0 to 4/0 exist")
	}
	if s != "" && len(s) <= 4 && strings.Trim(s, "0") == "" {
		return 1 - len(s), nil
	}
	if s == "" || len(s) > 2 || strings.Trim(s, "0123456789") != "" {
		return 0, errors.New("the gauge is not a number")
	}
	return strconv.Atoi(s)
}
