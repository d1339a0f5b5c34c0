package check_test

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc/unit"
	"loomwright/netlist"
	"loomwright/netlist/check"
	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/sample"
)

// harnesses are sample harnesses with some wires made too thin or too long, and
// random small ones.
func harnesses(t *testing.T) map[string]*schematic.Doc {
	t.Helper()
	lib, err := catalog.Default()
	require.NoError(t, err)
	out := map[string]*schematic.Doc{}
	for seed := range uint64(4) {
		rng := rand.New(rand.NewPCG(seed, 11))
		d := sample.Harness(lib, 50, seed)
		for _, w := range wiresOf(d) {
			if rng.IntN(3) > 0 {
				continue
			}
			c := *w
			c.Size = []unit.Size{unit.MM2(0.5), unit.MM2(0.75), unit.GaugeAWG(18)}[rng.IntN(3)]
			if rng.IntN(2) == 0 {
				c.LengthMM = schematic.Some(float64(500 + rng.IntN(6000)))
			}
			d = d.With(schematic.Put{Key: c.Key(), Item: &c})
		}
		out[fmt.Sprint("sample ", seed)] = d
	}
	for seed := range uint64(10) {
		out[fmt.Sprint("random ", seed)] = doc(t, "ambient 60\n"+randomHarness(rand.New(rand.NewPCG(seed, 12)), true))
	}
	return out
}

// wiresOf lists the wires in the order of their names.
func wiresOf(d *schematic.Doc) []*schematic.Wire {
	return slices.SortedFunc(d.Wires(), func(a, b *schematic.Wire) int { return schematic.CompareNames(a.Name, b.Name) })
}

// less is an item with a piece of knowledge taken away.
type less struct {
	what string
	item schematic.Item
}

// forgotten lists an item of every sort with one length, size, insulation,
// rating or load value taken away.
func forgotten(d *schematic.Doc, rng *rand.Rand, one int) []less {
	var out []less
	for _, w := range wiresOf(d) {
		if rng.IntN(one) > 0 {
			continue
		}
		length, size, insulation := *w, *w, *w
		length.LengthMM = schematic.Num{}
		size.Size = unit.Size{}
		insulation.Insulation, insulation.TempC = "", schematic.Num{}
		if w.LengthMM.Known() && len(w.Route) == 0 { // else the route tells it
			out = append(out, less{"length of " + w.Name, &length})
		}
		out = append(out, less{"size of " + w.Name, &size}, less{"insulation of " + w.Name, &insulation})
	}
	for _, p := range slices.SortedFunc(d.Parts(), func(a, b *schematic.Part) int { return schematic.CompareNames(a.Name, b.Name) }) {
		k := d.KindOf(p)
		for _, name := range slices.Sorted(maps.Keys(p.Values)) {
			if param, ok := k.Param(name); !ok || param.Default.Known() || rng.IntN(one) > 0 {
				continue
			}
			c := *p
			c.Values = maps.Clone(p.Values)
			delete(c.Values, name)
			out = append(out, less{name + " of " + p.Name, &c})
		}
	}
	return out
}

// Taking knowledge away never makes a verdict better: what was found is still
// found, or said to be not assessed, and what was not assessed stays so.
func TestForgettingNeverPasses(t *testing.T) {
	tried := 0
	for name, d := range harnesses(t) {
		before := look(t, d)
		for _, l := range forgotten(d, rand.New(rand.NewPCG(uint64(len(name)), 13)), 3) {
			tried++
			after := look(t, d.With(schematic.Put{Key: l.item.Key(), Item: l.item}))
			now := byID(after)
			open := map[schematic.Key]bool{}
			named := false
			for _, g := range after {
				if g.Severity == check.NotAssessed {
					for _, k := range g.Items {
						open[k] = true
						named = named || k == l.item.Key()
					}
				}
			}
			if _, wire := l.item.(*schematic.Wire); wire {
				assert.True(t, named, "%s: nobody asks for the %s", name, l.what)
			}
			for _, f := range before {
				if f.Severity == check.Note {
					continue
				}
				_, still := now[f.ID]
				assert.True(t, still || open[f.Items[0]], "%s without the %s: gone: %s", name, l.what, f.Text)
				if f.Severity == check.NotAssessed && still {
					assert.Equal(t, check.NotAssessed, now[f.ID].Severity, "%s without the %s: %s", name, l.what, now[f.ID].Text)
				}
			}
		}
	}
	assert.Greater(t, tried, 300)
}

// The same drawing gives the same findings in the same order, whatever was
// computed before.
func TestFindingsDoNotDependOnWhatWasAskedBefore(t *testing.T) {
	for name, d := range harnesses(t) {
		n := netlist.Build(d)
		first := check.Run(n, n.SolveAll())
		assert.Equal(t, first, check.Run(n, n.SolveAll()), "%s: the same network again", name)
		back := schematic.New(d.Library())
		var puts []schematic.Put
		for it := range d.All() {
			puts = append(puts, schematic.Put{Key: it.Key(), Item: it})
		}
		slices.Reverse(puts)
		m := netlist.Build(back.With(puts...))
		assert.Equal(t, first, check.Run(m, m.SolveAll()), "%s: put together in another order", name)
	}
}

// A thicker wire has no worse findings of its own than before, but for its fit
// in contacts and seals.
func TestThickerWireOfAnyHarness(t *testing.T) {
	fit := []string{"cavity badly filled", "seal does not fit wire", "circuit in several sizes"}
	for name, d := range harnesses(t) {
		rng := rand.New(rand.NewPCG(uint64(len(name)), 14))
		before := byID(look(t, d))
		for _, w := range wiresOf(d) {
			area, _ := w.Size.AreaMM2()
			if rng.IntN(4) > 0 || area > 60 {
				continue
			}
			c := *w
			c.Size = unit.MM2(70)
			for _, f := range look(t, d.With(schematic.Put{Key: c.Key(), Item: &c})) {
				if f.Items == nil || f.Items[0] != w.Key() || slices.Contains(fit, f.Rule) {
					continue
				}
				old, had := before[f.ID]
				if assert.True(t, had, "%s, %s: new: %s", name, w.Name, f.Text) {
					assert.LessOrEqual(t, old.Severity, f.Severity, "%s: %s, before: %s", name, f.Text, old.Text)
				}
			}
		}
	}
}

// Hotter air never takes a finding away that hangs on the resistance or the
// insulation of a wire, where loads are resistances.
func TestHotterAirOfAnyHarness(t *testing.T) {
	hangs := []string{"wire too thin", "fuse too large for wire", "voltage drop", "ground path too resistive", "voltage too low to work", "missing data"}
	for name, d := range harnesses(t) {
		if strings.HasPrefix(name, "sample") {
			continue // its motors and lamps draw less where wires are warm
		}
		info := *d.Info()
		info.AmbientC = schematic.Some(85)
		hot := byID(look(t, d.With(schematic.Put{Key: info.Key(), Item: &info})))
		for _, f := range look(t, d) {
			if !slices.Contains(hangs, f.Rule) {
				continue
			}
			g, ok := hot[f.ID]
			if assert.True(t, ok, "%s: gone at 85 °C: %s", name, f.Text) {
				assert.LessOrEqual(t, g.Severity, f.Severity, "%s: %s, before: %s", name, g.Text, f.Text)
			}
		}
	}
}

// Hotter air never lets a wire bear more (√((Tc − Ta)/(Tc − Tlist)) falls).
func TestHotterAirInASample(t *testing.T) {
	for name, d := range harnesses(t) {
		info := *d.Info()
		info.AmbientC = schematic.Some(100)
		cold := byID(look(t, d))
		for _, f := range look(t, d.With(schematic.Put{Key: info.Key(), Item: &info})) {
			if old, ok := cold[f.ID]; ok && f.Rule == "fuse too large for wire" && f.Limit.Known() {
				assert.LessOrEqual(t, f.Limit.Or(0), old.Limit.Or(0)+1e-9, "%s: %s, before: %s", name, f.Text, old.Text)
			}
		}
	}
}

// A strap more between grounds never raises the resistance of a load's ground
// (Rayleigh 1899).
func TestStrapNeverRaisesAGround(t *testing.T) {
	seen := 0
	for name, d := range harnesses(t) {
		var studs []*schematic.Part
		var battery *schematic.Part
		for p := range d.Parts() {
			if k := d.KindOf(p); k != nil && k.Ground != "" {
				studs = append(studs, p)
			} else if p.Kind == "battery" {
				battery = p
			}
		}
		require.NotEmpty(t, studs, name)
		slices.SortFunc(studs, func(a, b *schematic.Part) int { return schematic.CompareNames(a.Name, b.Name) })
		before := byID(look(t, d))
		for _, stud := range studs[:min(3, len(studs))] {
			w := &schematic.Wire{ID: schematic.ID{77}, Name: "W7777", Size: unit.MM2(16), LengthMM: schematic.Some(400), Insulation: "FLRY",
				A: schematic.End{Part: stud.ID, Pin: d.PinsOf(stud)[0].Name}, B: schematic.End{Part: battery.ID, Pin: "-"}}
			for _, f := range look(t, d.With(schematic.Put{Key: w.Key(), Item: w})) {
				if f.Rule != "ground path too resistive" || f.Severity != check.Warning {
					continue
				}
				seen++
				old, ok := before[f.ID]
				if assert.True(t, ok && old.Value.Known(), "%s: new: %s", name, f.Text) {
					assert.LessOrEqual(t, f.Value.Or(0), old.Value.Or(0)*(1+1e-9), "%s: %s, before: %s", name, f.Text, old.Text)
				}
			}
		}
	}
	assert.Greater(t, seen, 10)
}
