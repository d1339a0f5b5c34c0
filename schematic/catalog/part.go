package catalog

import (
	"maps"
	"slices"

	"loomwright/schematic"
)

// MaxPins bounds the pins [WithPins] makes; connectors do not have more.
const MaxPins = 400

// New returns a part of the kind with the given designation: own pins as the
// kind starts them, no values, no view and no ID yet.
func New(k *schematic.Kind, name string) *schematic.Part {
	p := &schematic.Part{Name: name, Kind: k.Name}
	if k.OwnPins {
		p.Pins = copyPins(k.Pins)
	}
	return p
}

// WithPins returns the part with n counted pins: the cavities of a connector,
// the outputs of a fuse block, the pins of a control unit (see [Counted]).
// Further pins count on from the last one and are like the last pin of the
// kind; surplus ones go from the end, also if wires are at them: that is for
// the caller to see to. N is held within 1 and [MaxPins]. A part of a kind
// without own pins comes back as it is.
func WithPins(k *schematic.Kind, p *schematic.Part, n int) *schematic.Part {
	if !k.OwnPins || len(k.Pins) == 0 {
		return p
	}
	n = min(max(n, 1), MaxPins)
	q := *p
	q.Pins = nil
	taken := map[string]bool{}
	counts := counting(k, p)
	left, last := n, "0"
	for _, pin := range copyPins(p.Pins) {
		if counts(pin.Name) {
			if left == 0 {
				continue
			}
			left--
			if !isNumber(pin.Name) {
				last = pin.Name
			}
		}
		taken[pin.Name] = true
		q.Pins = append(q.Pins, pin)
	}
	like := k.Pins[len(k.Pins)-1]
	for left > 0 {
		if last = schematic.NextName(last); taken[last] {
			continue
		}
		pin := copyPins([]schematic.Pin{like})[0]
		pin.Name, pin.Title = last, ""
		q.Pins = append(q.Pins, pin)
		left--
	}
	return &q
}

// Counted returns how many of a part's own pins are counted: those whose name is
// a plain number, or, where there are none, all but those the kind names in
// words, such as the feed of a fuse block. Cavities may be called A1, B3.
func Counted(k *schematic.Kind, p *schematic.Part) int {
	n := 0
	counts := counting(k, p)
	for _, pin := range p.Pins {
		if counts(pin.Name) {
			n++
		}
	}
	return n
}

func counting(k *schematic.Kind, p *schematic.Part) func(name string) bool {
	if slices.ContainsFunc(p.Pins, func(pin schematic.Pin) bool { return isNumber(pin.Name) }) {
		return isNumber
	}
	return func(name string) bool {
		return !slices.ContainsFunc(k.Pins, func(pin schematic.Pin) bool { return pin.Name == name })
	}
}

func isNumber(s string) bool {
	for _, r := range s {
		if r < '0' || r > '9' {
			return false
		}
	}
	return s != ""
}

func copyPins(pins []schematic.Pin) []schematic.Pin {
	c := slices.Clone(pins)
	for i := range c {
		c[i].Values = maps.Clone(c[i].Values)
		c[i].Extra = maps.Clone(c[i].Extra)
	}
	return c
}
