package netlist_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"loomwright/calc/unit"
	"loomwright/netlist"
	"loomwright/netlist/check"
	"loomwright/schematic"
)

// tape deals out a fuzzer's bytes as choices; at its end every choice is 0.
type tape []byte

func (b *tape) next() int {
	if len(*b) == 0 {
		return 0
	}
	v := (*b)[0]
	*b = (*b)[1:]
	return int(v)
}

func (b *tape) pick(n int) int { return b.next() % n }

// value deals numbers a file may hold, and some only a program can make.
func (b *tape) value() float64 {
	if b.pick(4) > 0 {
		return []float64{0.01, 1, 12, 5}[b.pick(4)]
	}
	v := []float64{0, 1, 12, 0.005, -1, 1e-12, 1e9, -1e9, math.NaN(), math.Inf(1), 1e300, 14, 80, 24, 0.5, math.Copysign(0, -1)}
	return v[b.pick(len(v))]
}

func (b *tape) number() schematic.Num {
	if b.pick(4) == 0 {
		return schematic.Num{}
	}
	return schematic.Some(b.value())
}

func (b *tape) id(t byte) schematic.ID { return schematic.ID{t, byte(b.pick(6))} }

// hostile makes any document at all, sensible or not, out of bytes.
func hostile(data []byte) *schematic.Doc {
	b := tape(data)
	nodes := []string{"1", "2", "3", "@", "#a", "#metal", "", "9"}
	node := func() string {
		if b.pick(4) > 0 {
			return nodes[b.pick(2)] // most parts have two pins that are used
		}
		return nodes[b.pick(len(nodes))]
	}
	engines := []schematic.Engine{"", schematic.EngineOff, schematic.EngineCranking, schematic.EngineRunning, "odd"}
	positions := []string{"", "on", "off", "1", "odd"}
	element := func() schematic.Element {
		types := append(schematic.ElementTypes(), "odd")
		e := schematic.Element{Name: nodes[b.pick(4)], Type: types[b.pick(len(types))], A: node(), B: node(), Args: map[string]schematic.Arg{}}
		for _, arg := range []string{"ohm", "volt", "amp", "watt", "limit_amp", "min_volt", "pull_in_volt", "drop_out_volt"} {
			switch b.pick(3) {
			case 0:
				e.Args[arg] = schematic.Arg{Value: b.value()}
			case 1:
				e.Args[arg] = schematic.Arg{Param: "p"}
			}
		}
		if b.pick(3) == 0 {
			e.Coil, e.Break = nodes[b.pick(4)], b.pick(2) == 0
		}
		e.In, e.Feed = []string{positions[b.pick(5)]}, node()
		if b.pick(3) == 0 {
			e.When = []schematic.Engine{engines[b.pick(5)]}
		}
		if b.pick(2) == 0 {
			e.Load = "motor"
		}
		return e
	}
	var kinds []*schematic.Kind
	for i := range 3 {
		k := &schematic.Kind{Name: fmt.Sprint("k", i), Ground: []string{"", "body"}[b.pick(2)], OwnPins: b.pick(2) == 0,
			Params: []schematic.Param{{Name: "p", Default: b.number()}}, Positions: positions[1 : 1+b.pick(4)],
			Pins:  []schematic.Pin{{Name: "1"}, {Name: "2", Role: "r"}, {Name: "3"}, {Name: "3"}},
			Roles: []schematic.Role{{Name: "r"}}}
		for range b.pick(4) {
			k.Elements = append(k.Elements, element())
		}
		if i == 0 && b.pick(4) > 0 {
			k.OwnPins = false
			k.Elements = append(k.Elements, schematic.Element{Name: "cells", Type: schematic.ElemBattery, A: "1", B: "2",
				Args: map[string]schematic.Arg{"volt": {Value: 12}, "ohm": {Value: 0.01}}})
		}
		if i == 1 && b.pick(4) > 0 {
			k.OwnPins = false
			k.Elements = append(k.Elements, schematic.Element{Name: "load", Type: schematic.ElemResistor, A: "1", B: "2", Load: "motor",
				Args: map[string]schematic.Arg{"ohm": {Param: "p"}}})
		}
		for range b.pick(3) {
			k.Roles[0].Elements = append(k.Roles[0].Elements, element())
		}
		kinds = append(kinds, k)
	}
	var puts []schematic.Put
	put := func(it schematic.Item) { puts = append(puts, schematic.Put{Key: it.Key(), Item: it}) }
	put(&schematic.Info{SystemVolt: b.number(), AmbientC: b.number()})
	for i := range 1 + b.pick(6) {
		p := &schematic.Part{ID: schematic.ID{1, byte(i)}, Name: fmt.Sprint("P", b.pick(6)), Kind: fmt.Sprint("k", b.pick(4)),
			Values: map[string]float64{"p": b.value()}, Mate: b.id(1)}
		for range 1 + b.pick(4) {
			p.Pins = append(p.Pins, schematic.Pin{Name: node(), Role: []string{"r", "x"}[b.pick(2)], Values: map[string]float64{"p": b.value()}})
		}
		put(p)
	}
	segments := []schematic.Segment{{ID: schematic.ID{4, 0}, LengthMM: b.number(), AmbientC: b.number()}, {ID: schematic.ID{4, 1}, LengthMM: b.number()}}
	put(&schematic.Loom{ID: schematic.ID{3, 1}, Name: "L", Segments: segments})
	for i := range b.pick(24) {
		end := func() schematic.End {
			e := schematic.End{Part: b.id(1), Pin: node(), JointOhm: b.number()}
			if b.pick(6) == 0 {
				e.Part = schematic.ID{}
			}
			return e
		}
		sizes := []unit.Size{{}, unit.MM2(1), unit.MM2(b.value()), unit.GaugeAWG(18), unit.GaugeSAE(22), {System: 77, N: b.value()}}
		w := &schematic.Wire{ID: schematic.ID{2, byte(i)}, Name: fmt.Sprint("W", b.pick(20)), A: end(), B: end(), Size: sizes[b.pick(len(sizes))],
			LengthMM: b.number(), SlackMM: b.number(), Insulation: []string{"FLRY", "", "XYZ"}[b.pick(3)], Loom: b.id(3), Route: []schematic.ID{b.id(4)}, TempC: b.number(), Metal: []schematic.Metal{"", schematic.Aluminium, "odd"}[b.pick(3)]}
		put(w)
	}
	for i := range b.pick(3) {
		st := &schematic.State{ID: schematic.ID{5, byte(i)}, Name: fmt.Sprint("s", i), Engine: engines[b.pick(5)]}
		for range b.pick(4) {
			st.Set = append(st.Set, schematic.Setting{Part: b.id(1), Item: node(), Position: positions[b.pick(5)], Duty: b.number()})
		}
		put(st)
	}
	return schematic.New(schematic.NewLibrary(kinds...)).With(puts...)
}

// FuzzDocument checks that no document whatever makes the network or the rules
// panic, and that figures without an error are numbers.
func FuzzDocument(f *testing.F) {
	f.Add([]byte{})
	for seed := range 20 {
		data := make([]byte, 400)
		for i := range data {
			data[i] = byte((i*i + 7*i*seed + seed*seed*31) >> 2)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		survives(t, data)
	})
}

func survives(t testing.TB, data []byte) {
	t.Helper()
	n := netlist.Build(hostile(data))
	sols := n.SolveAll()
	for _, f := range check.Run(n, sols) {
		if f.Text == "" || f.Source == "" {
			t.Fatalf("a finding of %q says nothing", f.Rule)
		}
	}
	netlist.LostGrounds(sols, func(float64) bool { return true })
	for _, x := range n.Worst().Wires {
		if math.IsNaN(x.Amp) || math.IsNaN(x.Bound) || x.Bound < x.Amp {
			t.Fatalf("%s carries %g A, at most %g A", n.Branches[x.Wire].Name(), x.Amp, x.Bound)
		}
	}
	for _, s := range sols {
		for i := range n.Branches {
			if s.Err == nil && (math.IsNaN(s.Amp[i]) || math.IsInf(s.Amp[i], 0)) {
				t.Fatalf("%s carries %g A", n.Branches[i].Name(), s.Amp[i])
			}
			_ = n.Branches[i].Name()
			s.Across(i)
			s.TraceBranch(i)
		}
		for p := range n.Doc.Parts() {
			s.TracePart(p.ID)
			for _, pin := range n.Doc.PinsOf(p) {
				s.TracePin(schematic.PinRef{Part: p.ID, Pin: pin.Name})
			}
		}
	}
}

func TestRandomBytes(t *testing.T) {
	for seed := range uint64(1500) {
		rng := rand.New(rand.NewPCG(seed, 3))
		data := make([]byte, 100+rng.IntN(1500))
		for i := range data {
			data[i] = byte(rng.Uint32())
		}
		survives(t, data)
		if t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
}
