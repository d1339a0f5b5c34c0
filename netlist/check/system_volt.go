package check

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/schematic"
)

var systemVolt = Rule{
	ID:    "default for another voltage",
	Title: "Parts that count as made for another system voltage",
	Help: "Where a part does not say its rated voltage, its coil or its series resistor, the defaults of its kind stand in, and most of them are " +
		"those of 12 V parts. In a system of another voltage the figures are then not those of the part that is fitted.",
	Source: "the drawing",
	run: func(r *run) {
		for _, p := range r.parts() {
			r.systemVolt(p)
		}
	},
}

// otherSystem is the ratio of two system voltages from which on they are not
// the same one: 12 and 14 V are, 12 and 24 V are not (judgement, no source).
const otherSystem = 1.5

func (r *run) systemVolt(p *schematic.Part) {
	k := r.doc.KindOf(p)
	if k == nil {
		return
	}
	system := r.doc.Info().Volts()
	var titles []string
	made := 0.0
	for _, prm := range k.Params {
		v := prm.SystemVolt
		if _, said := p.Values[prm.Name]; said || v <= 0 || !prm.Default.Known() || system < v*otherSystem && v < system*otherSystem {
			continue
		}
		if made == 0 {
			made = v
		}
		if title, _, _ := strings.Cut(strings.ToLower(prm.Title), ","); !slices.Contains(titles, title) {
			titles = append(titles, title)
		}
	}
	if len(titles) == 0 {
		return
	}
	what := list(titles) + " is the default"
	if len(titles) > 1 {
		what = list(titles) + " are defaults"
	}
	r.add(Finding{Severity: NotAssessed, Items: []schematic.Key{p.Key()}, Missing: list(titles),
		Text: fmt.Sprintf("%s counts as made for %s in a system of %s: its %s.", p.Name, volts(made), volts(system), what)})
}
