package check

import (
	"fmt"
	"math"

	"loomwright/calc"
	"loomwright/netlist"
	"loomwright/schematic"
)

var wireThin = Rule{
	ID:    "wire too thin",
	Title: "Current in a wire against what its insulation bears",
	Help: "The largest current of all operating states is held against the ampacity: the listed current for the size and the " +
		"temperature class of the insulation, times √((Tc − Ta)/(Tc − Tlist)) for the air at the hottest place along the route, " +
		"times the factor for the loaded wires in the most crowded segment. While the engine is cranked a wire may carry what " +
		"heats it to its class within the time of cranking.",
	Source: "33 CFR 183.425, ISO 10133 (from memory), a maker's list for thin-wall PVC, AC 43.13-1B",
	run: func(r *run) {
		v := vague{r: r}
		c := crowd{r: r}
		for i := range r.n.Branches {
			if br := &r.n.Branches[i]; br.Role == netlist.RoleWire {
				r.wireThin(i, br.Wire, &v, &c)
			}
		}
		v.tell("they bear it")
		c.tell("bear what they carry")
	},
}

// strain is a wire's current in the operating state that strains it most.
type strain struct {
	s     *netlist.Solution
	amp   float64
	bears calc.Rated
}

// strained finds the state with the largest current over what the wire bears;
// false when it carries none.
func (r *run) strained(i int, w *schematic.Wire) (strain, bool, error) {
	var most strain
	for _, only := range []func(*netlist.Solution) bool{sustained, cranking} {
		s, a := r.worst(i, only)
		if s == nil {
			continue
		}
		b, err := r.bears(i, w, s)
		if err != nil {
			return strain{s: s, amp: a}, true, err
		}
		if most.s == nil || a*most.bears.Value > most.amp*b.Value {
			most = strain{s, a, b}
		}
	}
	return most, most.s != nil, nil
}

func (r *run) wireThin(i int, w *schematic.Wire, v *vague, c *crowd) {
	m, loaded, err := r.strained(i, w)
	switch {
	case !loaded:
		return
	case err != nil:
		r.add(of(m.s, Finding{Severity: NotAssessed, Items: []schematic.Key{w.Key()}, Value: schematic.Some(m.amp), Unit: "A",
			Missing: lacking(err), Text: fmt.Sprintf("%s carries %s; whether it bears that is not assessed: %s.", w.Name, amps(m.amp), reason(err))}))
		return
	case m.amp <= m.bears.Value:
		v.keeps(i, m.bears.Value)
		c.keeps(i, m.amp)
		return
	}
	formula := m.bears.Formula
	if c, ok := m.s.WireTempC(w.ID); ok {
		formula += fmt.Sprintf("; at %s the conductor reaches %s", amps(m.amp), degC(c))
	}
	r.add(of(m.s, Finding{
		Severity: Error, Items: []schematic.Key{w.Key()}, Unit: "A",
		Value: schematic.Some(m.amp), Limit: schematic.Some(m.bears.Value), Margin: schematic.Some(m.bears.Value - m.amp),
		Text: fmt.Sprintf("%s (%s) carries %s but bears %s in air of %s with %d loaded together.",
			w.Name, w.Size, amps(m.amp), amps(m.bears.Value), degC(m.bears.AmbientC), r.bundled(i, m.s)),
		Formula: formula, Source: m.bears.Source.String(), remedy: func() []Fix { return r.thicker(i, w, m) },
	}))
}

// thicker offers the next larger size that bears the current, which the thicker
// wire may make a little larger itself.
func (r *run) thicker(i int, w *schematic.Wire, m strain) []Fix {
	tries := 0
	for _, size := range larger(w.Size) {
		c := withSize(w, size)
		rated, err := r.bears(i, c, m.s)
		if err != nil || rated.Value < m.amp {
			continue
		}
		if tries++; tries > 3 {
			break
		}
		after, ok := r.withWire(i, c, m.s)
		if !ok {
			break
		}
		if a := math.Abs(after[0].Amp[i]); a <= rated.Value*surely {
			return []Fix{{Label: "use " + size.String(), Items: []schematic.Item{c},
				Effect: fmt.Sprintf("it then carries %s and bears %s", amps(a), amps(rated.Value))}}
		}
	}
	return nil
}
