package netlist_test

import (
	"fmt"
	"strings"
	"testing"

	"loomwright/netlist"
	"loomwright/schematic"
)

// bigPlan is a tree-like harness of about the given number of wires: a fuse
// block feeds branches of relay, switch, splice and four loads on ground studs,
// in four operating states.
func bigPlan(wires int) string {
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	w := 0
	wire := func(from, to, size string, mm int) {
		w++
		line("W%d %s %s %s %d joints", w, from, to, size, mm)
	}
	line("ambient 40")
	line("G1 battery")
	line("G2 alternator limit_amp=120")
	line("F0 fuse-sf51 amp=200")
	line("X0 bus-bar")
	line("GND0 ground-body")
	for i := range 200 {
		line("X0.%d stud", i+1)
	}
	wire("G1.+", "F0.1", "50mm2", 150)
	wire("F0.2", "X0.1", "50mm2", 900)
	wire("G2.B+", "X0.2", "25mm2", 1200)
	wire("G2.B-", "GND0.1", "25mm2", 400)
	wire("G1.-", "GND0.1", "50mm2", 400)
	on := ""
	for i := 1; w+13 <= wires; i++ {
		line("F%d fuse-regular amp=20", i)
		line("S%d switch-toggle", i)
		line("K%d relay-make", i)
		line("SP%d splice", i)
		line("GND%d ground-body", i)
		wire(fmt.Sprintf("X0.%d", 3+i), fmt.Sprintf("F%d.1", i), "4mm2", 300)
		wire(fmt.Sprintf("F%d.2", i), fmt.Sprintf("K%d.30", i), "2.5mm2", 800)
		wire(fmt.Sprintf("F%d.2", i), fmt.Sprintf("S%d.82", i), "0.5mm2", 1500)
		wire(fmt.Sprintf("S%d.82a", i), fmt.Sprintf("K%d.86", i), "0.5mm2", 1500)
		wire(fmt.Sprintf("K%d.85", i), fmt.Sprintf("GND%d.1", i), "0.5mm2", 600)
		wire(fmt.Sprintf("K%d.87", i), fmt.Sprintf("SP%d.1", i), "2.5mm2", 2500)
		for j, load := range []string{"lamp watt=21", "lamp watt=5", "motor amp=3", "load-two-pin amp=1.5"} {
			name := fmt.Sprintf("E%d", 4*i+j)
			line("%s %s", name, load)
			pins := [][2]string{{"1", "2"}, {"1", "2"}, {"33", "32"}, {"+", "-"}}[j]
			wire(fmt.Sprintf("SP%d.1", i), name+"."+pins[0], "1mm2", 700)
			if j < 3 {
				wire(name+"."+pins[1], fmt.Sprintf("GND%d.1", i), "1mm2", 500)
			} else {
				wire(name+"."+pins[1], "GND0.1", "1mm2", 2000)
			}
		}
		if i%2 == 0 {
			on += fmt.Sprintf(" S%d=on", i)
		}
	}
	line("state parked off")
	line("state lights off%s", on)
	line("state cranking cranking")
	line("state running running%s", on)
	return b.String()
}

func bigDoc(b testing.TB) *schematic.Doc {
	b.Helper()
	d := doc(b, bigPlan(1000))
	if n := d.Len(schematic.TypeWire); n < 980 {
		b.Fatal(n, "wires")
	}
	return d
}

func BenchmarkBuild(b *testing.B) {
	d := bigDoc(b)
	for b.Loop() {
		netlist.Build(d)
	}
}

func BenchmarkBuildAndSolveFourStates(b *testing.B) {
	d := bigDoc(b)
	for b.Loop() {
		for _, s := range netlist.Build(d).SolveAll() {
			if s.Err != nil {
				b.Fatal(s.Err)
			}
		}
	}
}

func BenchmarkSolveOneStateAgain(b *testing.B) {
	d := bigDoc(b)
	s := netlist.NewSolver(netlist.Build(d))
	states := d.States()
	for b.Loop() {
		if s.Solve(states[3]).Err != nil {
			b.Fatal("no solution")
		}
	}
}

func BenchmarkTrace(b *testing.B) {
	d := bigDoc(b)
	sols := netlist.Build(d).SolveAll()
	k, _ := d.Named("E40")
	for b.Loop() {
		sols[3].TracePart(k.ID)
	}
}

// One edit of a wire's length, all four states computed again.
func BenchmarkStudyAfterOneEdit(b *testing.B) {
	d := bigDoc(b)
	var study netlist.Study
	study.Solve(d)
	k, _ := d.Named("W300")
	mm := 500.0
	for b.Loop() {
		w := *d.Wire(k.ID)
		mm++
		w.LengthMM = schematic.Some(mm)
		d = d.With(schematic.Put{Key: w.Key(), Item: &w})
		if _, sols := study.Solve(d); sols[3].Err != nil {
			b.Fatal(sols[3].Err)
		}
	}
}

// The worst combination of every wire of 1 000, with some eighty switches.
func BenchmarkWorst(b *testing.B) {
	n := netlist.Build(bigDoc(b))
	for b.Loop() {
		n.Worst()
	}
}
