package check

import (
	"fmt"
	"math"
	"strings"

	"loomwright/schematic"
)

var scope = Rule{
	ID:    "out of scope",
	Title: "Circuits this program must not be used for",
	Help: "Restraint systems, brake and steering electronics, fuel lines and everything above 60 V direct current need the vehicle " +
		"maker's data and a qualified person. The rule looks at names, labels and voltages; it cannot know better than they say.",
	Source: "scope of this program",
	run:    runScope,
}

// scopeWords are words of circuits that are out of scope, in lower case.
var scopeWords = []struct{ word, what string }{
	{"airbag", "restraint systems"}, {"air bag", "restraint systems"}, {"restraint", "restraint systems"},
	{"pretensioner", "restraint systems"}, {"seat belt", "restraint systems"}, {"seatbelt", "restraint systems"},
	{"squib", "restraint systems"}, {"igniter", "restraint systems"}, {"crash sensor", "restraint systems"},
	{"brake control", "brake electronics"}, {"anti-lock", "brake electronics"}, {"antilock", "brake electronics"},
	{"brake booster", "brake electronics"}, {"brake actuator", "brake electronics"}, {"parking brake", "brake electronics"},
	{"stability control", "brake electronics"}, {"power steering", "steering electronics"}, {"steering assist", "steering electronics"},
	{"steering motor", "steering electronics"}, {"steering column", "steering electronics"},
	{"fuel line", "fuel lines"}, {"fuel pipe", "fuel lines"}, {"fuel rail pressure", "fuel lines"},
	{"high voltage", "voltages above 60 V"}, {"traction battery", "voltages above 60 V"},
}

func runScope(r *run) {
	for _, p := range r.parts() {
		r.scopeText(p.Key(), p.Name, p.Name+" "+p.Label)
	}
	for i := range r.n.Branches {
		if w := r.n.Branches[i].Wire; w != nil {
			r.scopeText(w.Key(), w.Name, w.Name+" "+w.Circuit)
		}
	}
	limit, src := r.limit(limitScope)
	if v := r.doc.Info().Volts(); v > limit {
		r.add(Finding{Severity: Note, Items: []schematic.Key{r.doc.Info().Key()}, Unit: "V", Source: src.String(),
			Value: schematic.Some(v), Limit: schematic.Some(limit), Margin: schematic.Some(limit - v),
			Text: fmt.Sprintf("The system voltage is %s; everything above %s is out of scope.", volts(v), volts(limit))}, "system")
	}
	for i := range r.n.Branches {
		br := &r.n.Branches[i]
		if !br.IsSource() {
			continue
		}
		if v := math.Abs(br.Value("volt").Or(0)); v > limit {
			r.add(Finding{Severity: Note, Items: []schematic.Key{br.Key()}, Unit: "V", Source: src.String(),
				Value: schematic.Some(v), Limit: schematic.Some(limit), Margin: schematic.Some(limit - v),
				Text: fmt.Sprintf("%s has %s; everything above %s is out of scope.", br.Name(), volts(v), volts(limit))})
		}
	}
	r.scopeVolts(limit, src.String())
}

// scopeVolts finds voltages that only arise from sources in series.
func (r *run) scopeVolts(limit float64, src string) {
	most, at, state := limit, -1, 0
	for k, s := range r.usable() {
		for node := range r.n.Nodes {
			if v, ok := s.VoltAt(node); ok && math.Abs(v) > most {
				most, at, state = math.Abs(v), node, k
			}
		}
	}
	if at < 0 {
		return
	}
	f := Finding{Severity: Note, Unit: "V", Source: src, Value: schematic.Some(most), Limit: schematic.Some(limit), Margin: schematic.Some(limit - most),
		Text: fmt.Sprintf("%s stands at %s; everything above %s is out of scope.", r.n.Nodes[at].Name, volts(most), volts(limit))}
	if p := r.n.Nodes[at].Part; p != nil {
		f.Items = []schematic.Key{p.Key()}
	}
	r.add(of(r.usable()[state], f), "node")
}

func (r *run) scopeText(key schematic.Key, name, text string) {
	text = strings.ToLower(text)
	for _, w := range scopeWords {
		if strings.Contains(text, w.word) {
			r.add(Finding{Severity: Note, Items: []schematic.Key{key},
				Text: fmt.Sprintf("%s says %q: %s are out of scope; follow the vehicle maker's data and leave them to a qualified person.", name, w.word, w.what)})
			return
		}
	}
}
