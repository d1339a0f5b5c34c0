package check_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"loomwright/calc/unit"
	"loomwright/netlist"
	"loomwright/netlist/check"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// randomHarness is a plausible harness with a random number of branches, sizes
// and lengths; a few values are missing.
func randomHarness(rng *rand.Rand, complete bool) string {
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	sizes := []string{"0.5mm2", "0.75mm2", "1mm2", "1.5mm2", "2.5mm2", "AWG18", "AWG14"}
	w := 0
	wire := func(from, to string) {
		w++
		length, size, opt := fmt.Sprint(100+rng.IntN(4000)), sizes[rng.IntN(len(sizes))], ""
		if !complete && rng.IntN(12) == 0 {
			length = "-"
		}
		if rng.IntN(2) == 0 {
			opt = "on=A"
		}
		line("W%d %s %s %s %s joints %s", w, from, to, size, length, opt)
	}
	line("G1 battery")
	line("G2 alternator limit_amp=90")
	line("segment A 900")
	line("F0 fuse-sf51 amp=100")
	line("GND0 ground-body")
	line("SP0 splice")
	line("W901 G1.+ F0.1 25mm2 150")
	line("W902 F0.2 SP0.1 25mm2 500")
	line("W903 G2.B+ SP0.1 16mm2 900")
	line("W904 G2.B- GND0.1 16mm2 400")
	line("W905 GND0.1 G1.- 16mm2 300")
	on := ""
	for i := 1; i <= 2+rng.IntN(6); i++ {
		line("F%d fuse-regular amp=%d", i, []int{5, 10, 15, 20, 30}[rng.IntN(5)])
		line("S%d switch-toggle rated_amp=20", i)
		line("GND%d ground-body", i)
		wire("SP0.1", fmt.Sprintf("F%d.1", i))
		wire(fmt.Sprintf("F%d.2", i), fmt.Sprintf("S%d.82", i))
		for j := range 1 + rng.IntN(3) {
			name := fmt.Sprintf("E%d", 10*i+j)
			line("%s load-resistive ohm=%.2f", name, 1+20*rng.Float64())
			wire(fmt.Sprintf("S%d.82a", i), name+".1")
			wire(name+".2", fmt.Sprintf("GND%d.1", rng.IntN(i+1)))
		}
		if rng.IntN(3) > 0 {
			on += fmt.Sprintf(" S%d=on", i)
		}
	}
	line("state off off")
	line("state run running%s", on)
	return b.String()
}

func byID(found []check.Finding) map[string]check.Finding {
	m := map[string]check.Finding{}
	for _, f := range found {
		m[f.ID] = f
	}
	return m
}

// ofWire reports whether a finding is about what a wire's own size decides.
func ofWire(f check.Finding, w *schematic.Wire) bool {
	return len(f.Items) > 0 && f.Items[0] == w.Key() && (f.Rule == "wire too thin" || f.Rule == "fuse too large for wire")
}

func TestThickerWireNeverWorsensItsOwnFindings(t *testing.T) {
	for seed := range uint64(40) {
		rng := rand.New(rand.NewPCG(seed, 5))
		d := doc(t, "ambient 50\n"+randomHarness(rng, true))
		before := byID(look(t, d))
		for w := range d.Wires() {
			if rng.IntN(4) > 0 {
				continue
			}
			c := *w
			area, _ := w.Size.AreaMM2()
			c.Size = unit.MM2(25)
			if area >= 25 {
				c.Size = unit.MM2(70)
			}
			after := look(t, d.With(schematic.Put{Key: c.Key(), Item: &c}))
			for _, f := range after {
				if !ofWire(f, w) {
					continue
				}
				old, had := before[f.ID]
				if assert.True(t, had, "seed %d: %s", seed, f.Text) {
					assert.LessOrEqual(t, old.Severity, f.Severity, "seed %d: %s, before: %s", seed, f.Text, old.Text)
				}
			}
		}
	}
}

// The loads are resistances, so the drop rises with the wires' resistance and
// the ampacity falls faster than the current.
func TestHigherAmbientNeverImproves(t *testing.T) {
	for seed := range uint64(60) {
		text := randomHarness(rand.New(rand.NewPCG(seed, 6)), true)
		cold := look(t, doc(t, "ambient 30\n"+text))
		hot := byID(look(t, doc(t, "ambient 70\n"+text)))
		for _, f := range cold {
			switch f.Rule {
			case "wire too thin", "fuse too large for wire", "voltage drop", "ground path too resistive":
			default:
				continue
			}
			g, ok := hot[f.ID]
			if assert.True(t, ok, "seed %d: gone at 70 °C: %s", seed, f.Text) {
				assert.LessOrEqual(t, g.Severity, f.Severity, "seed %d: %s, at 30 °C: %s", seed, g.Text, f.Text)
			}
		}
	}
}

// Unknown is never a pass, and no verdict is built on it either.
func TestWireWithoutLengthHasNoDropVerdict(t *testing.T) {
	seen := 0
	for seed := range uint64(60) {
		d := doc(t, "ambient 40\n"+randomHarness(rand.New(rand.NewPCG(seed, 7)), false))
		found := run(t, d)
		for w := range d.Wires() {
			if length, _ := netlist.LengthOf(d, w); length.Known() {
				continue
			}
			named := false
			for _, f := range found {
				if len(f.Items) > 0 && f.Items[0] == w.Key() && f.Rule == "missing data" {
					named = f.Severity == check.NotAssessed
				}
				if f.Rule != "voltage drop" && f.Rule != "ground path too resistive" || f.Severity == check.NotAssessed {
					continue
				}
				assert.NotContains(t, f.Formula+" ", w.Name+" ", "seed %d: %s", seed, f.Text)
			}
			assert.True(t, named, "seed %d: %s has no length and nobody says so", seed, w.Name)
			seen++
		}
	}
	assert.Greater(t, seen, 20)
}

func TestRemediesMendInAnyHarness(t *testing.T) {
	tried := map[string]int{}
	for seed := range uint64(40) {
		d := onSheet(doc(t, "ambient 60\n"+randomHarness(rand.New(rand.NewPCG(seed, 8)), seed%2 == 0)+"\nE90 load-resistive ohm=2\nW990 G1.+ E90.1 4mm2 1500\nW991 E90.2 G1.- 4mm2 300\n"))
		found := run(t, d)
		before := byID(found)
		for _, f := range found {
			for _, x := range f.Fixes {
				tried[f.Rule]++
				if _, draws := x.Draw.(edit.InLine); draws && strings.HasPrefix(f.Rule, "fuse too") {
					tried["branch fuse"]++
				}
				for _, g := range look(t, applied(d, x)) {
					assert.NotEqual(t, f.ID, g.ID, "seed %d: %s does not mend %s: %s", seed, x.Label, f.Text, g.Text)
					if old, had := before[g.ID]; strings.HasPrefix(f.Rule, "fuse too") && g.Severity <= f.Severity {
						assert.True(t, had && old.Severity <= g.Severity, "seed %d: %s brings %s", seed, x.Label, g.Text)
					}
				}
			}
		}
	}
	for _, rule := range []string{"wire too thin", "fuse too large for wire", "fuse overloaded", "voltage drop", "ground path too resistive", "no fuse between source and wire", "fuse too slow for wire", "branch fuse"} {
		assert.Greater(t, tried[rule], 0, rule)
	}
}
