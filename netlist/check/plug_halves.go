package check

import (
	"fmt"
	"slices"

	"loomwright/schematic"
)

var plugHalves = Rule{
	ID:    "connector halves do not match",
	Title: "The two halves of a plugged connector",
	Help: "Contacts meet by the names of the cavities: a name that only one half has leads nowhere. The halves take contacts of one " +
		"width, pins on one side and sockets on the other.",
	Source: "the drawing",
	run: func(r *run) {
		for _, p := range r.parts() {
			m := r.doc.Part(p.Mate)
			if m == nil || m == p || schematic.CompareNames(p.Name, m.Name) > 0 {
				continue // each pair once
			}
			r.plugHalves(p, m)
		}
	},
}

func (r *run) plugHalves(p, m *schematic.Part) {
	items := []schematic.Key{p.Key(), m.Key()}
	onlyP, onlyM := r.onlyIn(p, m), r.onlyIn(m, p)
	if len(onlyP)+len(onlyM) > 0 {
		f := Finding{Severity: Error, Items: items, Text: fmt.Sprintf("%s and %s do not match:", p.Name, m.Name)}
		for k, only := range [][]string{onlyP, onlyM} {
			half, other := p, m
			if k == 1 {
				half, other = m, p
			}
			if len(only) == 0 {
				continue
			}
			if len(onlyP) > 0 && k == 1 {
				f.Text += ";"
			}
			f.Text += fmt.Sprintf(" %s %s of %s %s no counterpart in %s", cavities(len(only)), list(only), half.Name, has(len(only)), other.Name)
			for _, name := range only {
				f.Pins = append(f.Pins, schematic.PinRef{Part: half.ID, Pin: name})
			}
		}
		f.Text += "."
		r.add(f, "cavities")
	}
	if p.Housing == nil || m.Housing == nil {
		return
	}
	if g := p.Housing.Gender; g != "" && g == m.Housing.Gender {
		r.add(Finding{Severity: Error, Items: items, Text: fmt.Sprintf("%s and %s both have %s contacts.", p.Name, m.Name, g)}, "contacts")
	}
	a, okA := p.Housing.ContactMM.Get()
	b, okB := m.Housing.ContactMM.Get()
	if okA && okB && a != b {
		r.add(Finding{Severity: Error, Items: items, Text: fmt.Sprintf("%s has contacts of %s, %s of %s.", p.Name, mm(a), m.Name, mm(b))}, "width")
	}
}

// onlyIn lists the cavities of a half that the other does not have.
func (r *run) onlyIn(half, other *schematic.Part) []string {
	var out []string
	for _, pin := range r.doc.PinsOf(half) {
		if _, ok := r.doc.PinOf(other, pin.Name); !ok {
			out = append(out, pin.Name)
		}
	}
	slices.SortFunc(out, schematic.CompareNames)
	return out
}

func cavities(n int) string {
	if n == 1 {
		return "cavity"
	}
	return "cavities"
}

func has(n int) string {
	if n == 1 {
		return "has"
	}
	return "have"
}
