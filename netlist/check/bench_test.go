package check_test

import (
	"fmt"
	"strings"
	"testing"

	"loomwright/calc/unit"
	"loomwright/netlist"
	"loomwright/netlist/check"
	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/sample"
)

// bigPlan is a tree-like harness of about the given number of wires in four
// operating states, with few mistakes, as a drawing near its end has.
func bigPlan(wires int) string {
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	w := 0
	wire := func(from, to, size string, mm int) {
		w++
		line("W%d %s %s %s %d joints on=A", w, from, to, size, mm)
	}
	line("ambient 40")
	line("segment A 900 40 tube")
	line("limit loaded_amp=1000 drop_small_lamp_line_volt=0.5 drop_electronics_volt=0.5 ground_volt=0.3")
	line("G1 battery")
	line("G2 alternator limit_amp=120")
	line("F0 fuse-sf51 amp=70")
	line("F00 fuse-sf51 amp=125")
	line("X0 bus-bar")
	line("GND0 ground-body")
	for i := range 200 {
		line("X0.%d stud", i+1)
	}
	wire("G1.+", "F0.1", "50mm2", 150)
	wire("F0.2", "X0.1", "50mm2", 900)
	wire("G2.B+", "F00.1", "50mm2", 100)
	wire("F00.2", "X0.2", "50mm2", 800)
	wire("G2.B-", "GND0.1", "50mm2", 400)
	wire("G1.-", "GND0.1", "50mm2", 100)
	var on [2]string
	for i := 1; w+13 <= wires; i++ {
		line("F%d fuse-regular amp=10", i)
		line("S%d switch-toggle rated_amp=10", i)
		line("K%d relay-make rated_amp=30", i)
		line("SP%d splice", i)
		line("GND%d ground-body", i)
		wire(fmt.Sprintf("X0.%d", 3+i), fmt.Sprintf("F%d.1", i), "35mm2", 300)
		wire(fmt.Sprintf("F%d.2", i), fmt.Sprintf("K%d.30", i), "2.5mm2", 300)
		wire(fmt.Sprintf("F%d.2", i), fmt.Sprintf("S%d.82", i), "0.75mm2", 500)
		wire(fmt.Sprintf("S%d.82a", i), fmt.Sprintf("K%d.86", i), "0.75mm2", 500)
		wire(fmt.Sprintf("K%d.85", i), fmt.Sprintf("GND%d.1", i), "0.75mm2", 200)
		wire(fmt.Sprintf("K%d.87", i), fmt.Sprintf("SP%d.1", i), "4mm2", 500)
		for j, load := range []string{"lamp watt=3", "load-resistive ohm=600", "motor amp=0.1", "load-two-pin amp=0.05"} {
			name := fmt.Sprintf("E%d", 4*i+j)
			line("%s %s", name, load)
			pins := [][2]string{{"1", "2"}, {"1", "2"}, {"33", "32"}, {"+", "-"}}[j]
			wire(fmt.Sprintf("SP%d.1", i), name+"."+pins[0], "1mm2", 300)
			wire(name+"."+pins[1], fmt.Sprintf("GND%d.1", i), "1.5mm2", 200)
		}
		on[i%2] += fmt.Sprintf(" S%d=on", i)
	}
	line("state parked off")
	line("state lights off%s", on[0])
	line("state cranking cranking")
	line("state running running%s", on[0]+on[1])
	return b.String()
}

func BenchmarkRun(b *testing.B) {
	for _, c := range []struct{ name, plan string }{
		{"1000 wires", bigPlan(1000)},
		{"1000 wires, full of mistakes", strings.NewReplacer("2.5mm2", "0.35mm2", "4mm2", "0.35mm2", "watt=3", "watt=60").Replace(bigPlan(1000))},
	} {
		d := doc(b, c.plan)
		n := netlist.Build(d)
		sols := n.SolveAll()
		b.Run(c.name+"/findings", func(b *testing.B) {
			for b.Loop() {
				check.Look(n, sols)
			}
			b.ReportMetric(float64(len(check.Look(n, sols).Findings())), "findings")
		})
		b.Run(c.name+"/with remedies", func(b *testing.B) {
			for b.Loop() {
				check.Run(n, sols)
			}
			remedies := 0
			for _, f := range check.Run(n, sols) {
				remedies += len(f.Fixes)
			}
			b.ReportMetric(float64(remedies), "remedies")
		})
	}
}

// From an edit to its findings: the budget is 16 ms for 1 000 wires in four
// operating states on two plain cores. Remedies come afterwards and do not count.
func BenchmarkEditToFindings(b *testing.B) {
	d := doc(b, bigPlan(1000))
	if n := d.Len(schematic.TypeWire); n < 980 {
		b.Fatal(n, "wires")
	}
	for b.Loop() {
		n := netlist.Build(d)
		check.Look(n, n.SolveAll())
	}
}

// The same on harnesses as they are drawn, with looms, connectors and several
// sheets, after one edit of a wire's size: fresh, and with a study that keeps
// the network.
func BenchmarkOneEdit(b *testing.B) {
	lib, err := catalog.Default()
	if err != nil {
		b.Fatal(err)
	}
	for _, wires := range []int{100, 1000, 5000} {
		d := sample.Harness(lib, wires, 1)
		k, _ := d.Named("W20")
		edit := func(i int) *schematic.Doc {
			w := *d.Wire(k.ID)
			w.Size = unit.MM2([]float64{1, 1.5, 2.5}[i%3])
			d = d.With(schematic.Put{Key: w.Key(), Item: &w})
			return d
		}
		b.Run(fmt.Sprintf("fresh/%d wires", wires), func(b *testing.B) {
			for i := 0; b.Loop(); i++ {
				n := netlist.Build(edit(i))
				check.Look(n, n.SolveAll())
			}
		})
		b.Run(fmt.Sprintf("study/%d wires", wires), func(b *testing.B) {
			var study netlist.Study
			for i := 0; b.Loop(); i++ {
				n, sols := study.Solve(edit(i))
				check.Look(n, sols)
			}
		})
	}
}
