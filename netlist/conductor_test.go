package netlist_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc"
	"loomwright/calc/unit"
	"loomwright/netlist"
	"loomwright/schematic"
)

// ohmOf returns the resistance of wire W1 in a document with one wire.
func ohmOf(t testing.TB, text string) netlist.Conductor {
	t.Helper()
	d := doc(t, "E1 lamp\nE2 lamp\n"+text)
	n := netlist.Build(d)
	return n.Branches[n.WireBranch(uuidOf(t, d, "W1"))].Conductor
}

// ISO 6722-1 largest resistances at 20 °C (from memory, plausible against IEC
// 60228 class 5); the temperature law with β = 234.5 K of IEC 60949 and AC
// 43.13-1B 11-66d; ASTM B258 for gauges.
func TestConductorResistance(t *testing.T) {
	for _, c := range []struct {
		name, why, plan string
		ohm             float64
	}{
		{"0.5 mm² 1 m", "ISO 6722: 37.1 mΩ/m", "ambient 20\nW1 E1.1 E2.1 0.5mm2 1000", 0.0371},
		{"2.5 mm² 3 m", "ISO 6722: 7.60 mΩ/m", "ambient 20\nW1 E1.1 E2.1 2.5mm2 3000", 0.0228},
		{"tinned 1 mm²", "ISO 6722 tinned: 19.1 mΩ/m", "ambient 20\nW1 E1.1 E2.1 1mm2 1000 tinned", 0.0191},
		{"V8", "10 m of 13.3 mΩ/m at 80 °C, here 1.5 mm² (12.7 mΩ/m) of the length that has the same at 20 °C",
			"ambient 80\nW1 E1.1 E2.1 1.5mm2 10472.440944881889", 0.1643554},
		{"AWG 18 at 50 °C", "ASTM B258 20.9482 Ω/km solid, (234.5+50)/254.5, 1.02 to 1.04 for strands",
			"ambient 50\nW1 E1.1 E2.1 AWG18 1000", 0.0209482 * 284.5 / 254.5 * 1.04},
		{"default ambient", "30 °C where nobody says", "W1 E1.1 E2.1 1mm2 1000", 0.0185 * 264.5 / 254.5},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := ohmOf(t, c.plan)
			assert.Empty(t, got.Missing)
			assert.InEpsilon(t, c.ohm, got.Ohm, 2e-6, c.why)
			assert.NotEmpty(t, got.Source.Title)
		})
	}
}

func TestConductorJoints(t *testing.T) {
	c := ohmOf(t, "ambient 20\nW1 E1.1 E2.1 1mm2 1000 joints")
	assert.Equal(t, [2]float64{0.3e-3, 0.3e-3}, c.JointOhm, "new crimp on 1 mm² (common practice, from memory)")
	assert.InDelta(t, 0.0185+0.6e-3, c.Ohm, 1e-9)
	loose := ohmOf(t, "ambient 20\nW1 E1.1 loose 1mm2 1000 joints")
	assert.Equal(t, [2]float64{0.3e-3, 0.3e-3}, c.JointOhm)
	assert.Zero(t, loose.JointOhm[1], "no joint at a loose end")
}

func routed(t testing.TB, change func(*schematic.Wire, *schematic.Loom)) *schematic.Doc {
	p := newPlan(t, "")
	p.read("ambient 40\nE1 lamp\nE2 lamp\nW1 E1.1 E2.1 1mm2 -")
	l := &schematic.Loom{ID: p.ID("loom"), Name: "engine"}
	for _, s := range []struct {
		name   string
		mm, at float64
	}{{"a", 400, 60}, {"b", 600, 95}} {
		l.Segments = append(l.Segments, schematic.Segment{ID: p.ID(s.name), Name: s.name, LengthMM: schematic.Some(s.mm), AmbientC: schematic.Some(s.at)})
	}
	w := p.Items()[2].(*schematic.Wire)
	w.Loom, w.Route, w.SlackMM = l.ID, []schematic.ID{l.Segments[0].ID, l.Segments[1].ID}, schematic.Some(50)
	change(w, l)
	return p.Build(append(p.Items(), l)...)
}

func TestLengthAndAmbientAlongTheRoute(t *testing.T) {
	for _, c := range []struct {
		name    string
		change  func(*schematic.Wire, *schematic.Loom)
		mm, at  float64
		derived bool
		missing []string
	}{
		{"sum and slack, hottest segment", func(*schematic.Wire, *schematic.Loom) {}, 1050, 95, true, nil},
		{"measured length wins", func(w *schematic.Wire, _ *schematic.Loom) { w.LengthMM = schematic.Some(777) }, 777, 95, false, nil},
		{"segment without length", func(_ *schematic.Wire, l *schematic.Loom) { l.Segments[1].LengthMM = schematic.Num{} }, 0, 95, false, []string{"length"}},
		{"segment without temperature", func(_ *schematic.Wire, l *schematic.Loom) { l.Segments[1].AmbientC = schematic.Num{} }, 1050, 60, true, nil},
		{"segment that is not there", func(w *schematic.Wire, _ *schematic.Loom) { w.Route[1] = schematic.ID{9} }, 0, 60, false, []string{"length"}},
		{"one segment cooler than the document, one without temperature", func(_ *schematic.Wire, l *schematic.Loom) {
			l.Segments[0].AmbientC, l.Segments[1].AmbientC = schematic.Some(10), schematic.Num{}
		}, 1050, 40, true, nil},
		{"cooler than the document", func(_ *schematic.Wire, l *schematic.Loom) {
			l.Segments[0].AmbientC, l.Segments[1].AmbientC = schematic.Some(10), schematic.Some(20)
		}, 1050, 20, true, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := routed(t, c.change)
			n := netlist.Build(d)
			got := n.Branches[n.WireBranch(uuidOf(t, d, "W1"))].Conductor
			require.Equal(t, c.missing, got.Missing)
			assert.Equal(t, c.mm, got.LengthMM)
			assert.Equal(t, c.at, got.AmbientC)
			assert.Equal(t, c.derived, got.Derived)
			assert.False(t, got.Assumed)
		})
	}
}

// Build keeps a metre of each sort; what it says must be what package calc says
// of the whole wire.
func TestConductorFormulaIsThatOfCalc(t *testing.T) {
	for _, size := range []unit.Size{unit.MM2(0.5), unit.MM2(1.1), unit.MM2(150), unit.GaugeAWG(18), unit.GaugeSAE(14), unit.GaugeSAE(22)} {
		for _, metal := range []schematic.Metal{schematic.Copper, schematic.Tinned, schematic.Aluminium} {
			for _, ambient := range []float64{20, 85} {
				for _, mm := range []float64{1000, 1, 2350.5} {
					w := &schematic.Wire{Name: "W1", Size: size, Metal: metal, LengthMM: schematic.Some(mm)}
					info := &schematic.Info{AmbientC: schematic.Some(ambient)}
					d := schematic.New(schematic.NewLibrary()).With(schematic.Put{Key: info.Key(), Item: info})
					got := netlist.ConductorOf(d, w)
					want, err := calc.WireResistance(calc.Conductor{Metal: netlist.MetalOf(w), Size: size, Tinned: metal == schematic.Tinned}, mm, ambient)
					require.NoError(t, err)
					assert.Equal(t, want.Formula, got.Formula)
					assert.Equal(t, want.Source, got.Source)
					assert.InEpsilon(t, want.Value, got.WireOhm, 1e-14)
				}
			}
		}
	}
}
