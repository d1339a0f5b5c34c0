package main

import (
	"math"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/loomfile"
)

// TestCurrentsAgain computes every state of every example again from what
// currents -json prints: resistances of wires, contacts and fuses, the values of
// the elements and which contacts are closed. The laws of the elements are those
// README.md gives under "What the numbers mean", typed in here, and the linear
// algebra is another library's dense matrix. The examples have relays, diodes,
// filaments, motors, constant currents and powers, regulators, plugged
// connectors and alternators below and at their limits.
func TestCurrentsAgain(t *testing.T) {
	lib, err := catalog.Default()
	require.NoError(t, err)
	files, err := filepath.Glob(filepath.Join(harnesses, "*.loom.json"))
	require.NoError(t, err)
	seen := map[string]bool{}
	for _, path := range append(files, "testdata/mixed.loom.json") {
		d, err := loomfile.Load(path, lib)
		require.NoError(t, err)
		for _, st := range currentsOf(t, path).States {
			t.Run(filepath.Base(path)+"/"+st.Name, func(t *testing.T) {
				n := printed(t, d, st, seen)
				volt := n.solve(t, "G1.-")
				again(t, n, volt, st)
				coilsFit(t, d, n, volt, st)
			})
		}
	}
	for _, what := range []string{"lamp", "motor", "diode", "constant-current", "constant-power", "alternator", "alternator at its limit", "regulator", "coil", "output", "plugged contact"} {
		assert.Contains(t, seen, what, "no example has one that carries current")
	}
}

// again compares volts and amps.
func again(t *testing.T, n *network, volt []float64, st stateJSON) {
	t.Helper()
	const close = 1e-6 // of a network that carries up to 300 A
	for _, net := range st.Nets {
		for _, p := range net.Pins {
			if i, ok := n.index[p.Pin]; ok && p.Volts != nil {
				assert.InDelta(t, volt[i], *p.Volts, close, "volts at %s", p.Pin)
			}
		}
	}
	amps := func(name string, said float64) {
		if amp := n.amps(volt, name); math.IsNaN(amp) { // interrupted, or without a way to the battery
			assert.Zero(t, said, name)
		} else {
			assert.InDelta(t, amp, said, close, "amps in %s", name)
		}
	}
	for _, w := range st.Wires {
		amps("wire "+w.Name, *w.Amps)
	}
	for _, c := range st.Contacts {
		amps("contact "+c.A, *c.Amps)
	}
	for _, p := range st.Parts {
		for _, e := range p.Elements {
			amps(nameOfElement(p, e), *e.Amps)
		}
	}
}

func nameOfElement(p partJSON, e elementJSON) string { return p.Name + " " + e.Pin + " " + e.Name }

// coilsFit tests that every relay contact stands as the volts at its coil say,
// by the coil's pull-in and drop-out.
func coilsFit(t *testing.T, d *schematic.Doc, n *network, volt []float64, st stateJSON) {
	t.Helper()
	for _, p := range st.Parts {
		key, _ := d.Named(p.Name)
		kind := d.KindOf(d.Part(key.ID))
		for _, e := range p.Elements {
			i := slices.IndexFunc(kind.Elements, func(x schematic.Element) bool { return x.Name == e.Name && x.Coil != "" })
			if i < 0 {
				continue
			}
			k := slices.IndexFunc(p.Elements, func(x elementJSON) bool { return x.Name == kind.Elements[i].Coil })
			coil := p.Elements[k]
			v := math.Abs(volt[n.index[coil.A]] - volt[n.index[coil.B]])
			pulled := e.Closed != kind.Elements[i].Break
			assert.True(t, v >= *coil.Args["pull_in_volt"] || !pulled || v >= *coil.Args["drop_out_volt"], "%s has pulled with %g V", p.Name, v)
			assert.True(t, pulled || v < *coil.Args["pull_in_volt"], "%s rests with %g V", p.Name, v)
		}
	}
}

// printed makes the network of a state from what the tool prints of it.
func printed(t *testing.T, d *schematic.Doc, st stateJSON, seen map[string]bool) *network {
	t.Helper()
	n := &network{index: map[string]int{}, size: map[string]string{}, start: 12}
	have := map[string]bool{} // points that have volts, so that islands stay out
	for _, net := range st.Nets {
		for _, p := range net.Pins {
			have[p.Pin] = p.Volts != nil
		}
	}
	note := func(what string, amp *float64) {
		if math.Abs(*amp) > 1e-3 {
			seen[what] = true
		}
	}
	add := func(name, a, b string, law func(float64) (float64, float64)) {
		if have[a] && have[b] {
			n.add(name, a, b, law)
		}
	}
	for _, w := range st.Wires {
		r := 0.001 // not known: the stand-in
		if w.Ohm != nil {
			r = math.Max(*w.Ohm, 1e-6)
		}
		add("wire "+w.Name, w.A, w.B, ohm(r))
	}
	for _, c := range st.Contacts {
		note("plugged contact", c.Amps)
		add("contact "+c.A, c.A, c.B, ohm(math.Max(*c.Ohm, 1e-6)))
	}
	for _, p := range st.Parts {
		for _, e := range p.Elements {
			note(e.Type, e.Amps)
			name := nameOfElement(p, e)
			value := func(arg string, def float64) float64 {
				if v := e.Args[arg]; v != nil {
					return *v
				}
				return def
			}
			duty := dutyOf(d, st, p, e)
			switch {
			case !e.Closed && e.Type != "regulator":
			case e.Type == "battery":
				volt, r := *e.Inner, *e.Ohm
				add(name, e.A, e.B, func(v float64) (float64, float64) { return (v - volt) / r, 1 / r })
			case e.Type == "fuse":
				add(name, e.A, e.B, ohm(*e.Ohm))
			case e.Type == "alternator":
				limit := value("limit_amp", 10e3)
				if st.Engine == "idle" {
					limit = min(limit, value("idle_limit_amp", limit))
				}
				require.LessOrEqual(t, value("temp_degc", 25), 25.0, "the law of the heat is not typed in here")
				if -*e.Amps > 0.999*limit {
					seen["alternator at its limit"] = true
				}
				add(name, e.A, e.B, held(value("volt", 0), value("ohm", 0), limit))
			case e.Type == "regulator":
				n.regulator(name, e, value("volt", 0), value("ohm", 0), value("limit_amp", 10e3), value("min_volt", value("volt", 0)))
			case e.Type == "motor":
				add(name, e.A, e.B, motor(value("volt", 0), duty*value("amp", 0)))
			case e.Type == "lamp":
				volt, watt := value("volt", 0), value("watt", 0)
				add(name, e.A, e.B, filament(volt, duty*watt, value("cold_ohm", volt*volt/watt/10)/duty))
			case e.Type == "diode":
				add(name, e.A, e.B, diode(value("volt", 0), value("ohm", 0.05)))
			case e.Type == "constant-current":
				add(name, e.A, e.B, constantCurrent(duty*value("amp", 0), value("min_volt", 1)))
			case e.Type == "constant-power":
				add(name, e.A, e.B, constantPower(duty*value("watt", 0), value("min_volt", 1)))
			default:
				add(name, e.A, e.B, ohm(math.Max(value("ohm", 0.001), 1e-6)/duty))
			}
		}
	}
	return n
}

// dutyOf is the share of time a load draws, as the state of the file says.
func dutyOf(d *schematic.Doc, st stateJSON, p partJSON, e elementJSON) float64 {
	key, _ := d.Named(p.Name)
	for _, s := range d.States() {
		for _, set := range s.Set {
			if s.Name == st.Name && set.Part == key.ID && slices.Contains([]string{"", e.Name, e.Pin}, set.Item) {
				return set.Duty.Or(1)
			}
		}
	}
	return 1
}

// held is a source of volt behind r that gives between nothing and limit.
func held(volt, r, limit float64) func(float64) (float64, float64) {
	return func(v float64) (float64, float64) {
		switch give := (volt - v) / r; {
		case give < 0:
			return leak * v, leak
		case give > limit:
			return -limit + leak*v, leak
		default:
			return -give + leak*v, 1/r + leak
		}
	}
}

// regulator is held between its two points, while its feed has least volts; what
// it gives it draws from the feed.
func (n *network) regulator(name string, e elementJSON, volt, r, limit, least float64) {
	feed, gives := 0.0, 0.0
	law := held(volt, r, limit)
	n.add(name, e.A, e.B, func(v float64) (float64, float64) {
		if feed < least { // as in the step before
			gives = 0
			return leak * v, leak
		}
		amp, siemens := law(v)
		gives = leak*v - amp
		return amp, siemens
	})
	n.add(name+" feed", e.Feed, e.B, func(v float64) (float64, float64) {
		feed = v
		return gives, 0
	})
}

// constantCurrent is amp from least volts up; below, amp·x·(2−x) with
// x = U/least.
func constantCurrent(amp, least float64) func(float64) (float64, float64) {
	return func(v float64) (float64, float64) {
		x := math.Abs(v) / least
		if x >= 1 {
			return math.Copysign(amp, v) + leak*v, leak
		}
		return math.Copysign(amp*x*(2-x), v) + leak*v, amp*(2-2*x)/least + leak
	}
}

// constantPower is watt/U from least volts up; below, the resistance
// least²/watt.
func constantPower(watt, least float64) func(float64) (float64, float64) {
	return func(v float64) (float64, float64) {
		if math.Abs(v) >= least {
			return watt/v + leak*v, -watt/v/v + leak
		}
		g := watt / least / least
		return (g + leak) * v, g + leak
	}
}
