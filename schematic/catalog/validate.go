package catalog

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// Problem is one mistake in a part kind.
type Problem struct {
	Path string // field within the kind: "elements[2].args.ohm"
	Text string
	// Minor is what a kind of the program must have and one in a harness file
	// may do without: titles, sources, the sort of load. Nothing is computed or
	// drawn otherwise for it.
	Minor bool
}

func (p Problem) String() string {
	if p.Path == "" {
		return p.Text
	}
	return p.Path + ": " + p.Text
}

// Validate returns the mistakes in a part kind, none when it can be drawn and
// computed. It takes any kind a file can hold. OtherHalf is not looked up.
func Validate(k *schematic.Kind) []Problem {
	if k == nil {
		return []Problem{{Text: "there is no part kind"}}
	}
	v := validator{k: k, used: set(RuleParams()...)}
	for _, p := range schematic.CheckKind(k) {
		v.add(p.Path, "%s", p.Text)
	}
	v.head()
	v.params("params", k.Params)
	v.sections()
	v.pinList()
	v.roles()
	v.elements()
	v.unused("params", k.Params)
	return v.out
}

type validator struct {
	k    *schematic.Kind
	used map[string]bool // parameters that something reads
	out  []Problem
}

func (v *validator) add(path, format string, args ...any) {
	v.out = append(v.out, Problem{Path: path, Text: fmt.Sprintf(format, args...)})
}

func (v *validator) minor(path, format string, args ...any) {
	v.out = append(v.out, Problem{Path: path, Text: fmt.Sprintf(format, args...), Minor: true})
}

// oneOf complains unless s is empty or in the set.
func (v *validator) oneOf(path, s string, known map[string]bool) {
	if s != "" && !known[s] {
		v.add(path, "%q is not known here: write %s", s, choices(known))
	}
}

func choices(known map[string]bool) string {
	return strings.Join(slices.Sorted(maps.Keys(known)), ", ")
}

func (v *validator) head() {
	k := v.k
	for _, f := range []struct{ path, text string }{{"name", k.Name}, {"title", k.Title}, {"group", k.Group}, {"prefix", k.Prefix}} {
		if strings.TrimSpace(f.text) == "" {
			v.minor(f.path, "is missing")
		}
	}
	if strings.ContainsFunc(k.Prefix, func(r rune) bool { return r < 'A' || r > 'Z' }) {
		v.add("prefix", "%q: write capital letters A to Z only, the number follows by itself", k.Prefix)
	}
	v.oneOf("duty", k.Duty, set("continuous", "intermittent"))
	v.oneOf("ground", k.Ground, set("body", "engine", "frame"))
	if k.OwnPins && len(k.Roles) == 0 {
		v.add("roles", "a kind with own pins needs at least one role for them")
	}
	if len(k.Positions) == 1 {
		v.add("positions", "a switch has at least two positions")
	}
}

func (v *validator) params(path string, params []schematic.Param) {
	for i, p := range params {
		at := fmt.Sprintf("%s[%d]", path, i)
		if strings.TrimSpace(p.Title) == "" {
			v.minor(at+".title", "parameter %q needs a title", p.Name)
		}
		if !units[p.Unit] {
			v.add(at+".unit", "%q is not a unit: write %s", p.Unit, choices(units))
		}
		if p.Default.Known() && strings.TrimSpace(p.Source) == "" {
			v.minor(at+".source", "the default of %q needs a source", p.Name)
		}
	}
}

// unused complains about parameters nothing reads.
func (v *validator) unused(path string, params []schematic.Param) {
	for i, p := range params {
		if !v.used[p.Name] {
			v.add(fmt.Sprintf("%s[%d].name", path, i), "parameter %q is used by no element", p.Name)
		}
	}
}

func (v *validator) pinList() {
	k := v.k
	for i, p := range k.Pins {
		at := fmt.Sprintf("pins[%d]", i)
		v.oneOf(at+".dir", string(p.Dir), dirs)
		v.oneOf(at+".side", string(p.Side), dirs)
		if !k.OwnPins && strings.HasPrefix(p.Name, "#") { // own pins are reached by @
			v.add(at+".name", "pin %q: an element that names it means an inner point: leave the # away", p.Name)
		}
		if sec, ok := k.Section(p.Section); k.OwnPins || ok && sec.Form != "" {
			continue // the box places them
		}
		if p.At.X%geom.Grid != 0 || p.At.Y%geom.Grid != 0 {
			v.add(at+".at", "pin %q at %d,%d is off the grid of %d", p.Name, p.At.X, p.At.Y, geom.Grid)
		}
		for _, q := range k.Pins[:i] {
			if q.Section == p.Section && max(abs(q.At.X-p.At.X), abs(q.At.Y-p.At.Y)) < schematic.PinPitch {
				v.add(at+".at", "pins %q and %q are less than %d apart", q.Name, p.Name, schematic.PinPitch)
			}
		}
	}
	if len(k.Pins) == 0 {
		v.add("pins", "a kind needs at least one pin; with own pins, one to start with")
	}
}

func abs(n int) int { return max(n, -n) }

var dirs = set("right", "down", "left", "up")
