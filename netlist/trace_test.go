package netlist_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist"
	"loomwright/schematic"
)

func TestTraceLive(t *testing.T) {
	d := doc(t, relayPlan+"\nE2 load-resistive ohm=12\nW8 K1.87 E2.1"+fat+"\nW9 E2.2 G1.-"+fat+"\nstate on off S1=on")
	s := solve(t, d)
	tr := s.TraceWire(uuidOf(t, d, "W6"))
	assert.Equal(t, "W1 F1 W2 K1 make contact W6 E1 W7", s.steps(tr.Main), "in order from source to ground, by the largest current")
	assert.False(t, tr.Dead || tr.NoSource || tr.NoGround)
	for i, st := range tr.Main {
		assert.Greater(t, s.Volt[st.From], s.Volt[st.To], "current falls")
		if i > 0 {
			assert.Equal(t, tr.Main[i-1].To, st.From, "one step leads to the next")
		}
	}
	assert.Equal(t, "G1.+", s.Netlist.Nodes[tr.Main[0].From].Name)
	assert.Equal(t, "G1.-", s.Netlist.Nodes[tr.Main[len(tr.Main)-1].To].Name)

	feed := s.TraceWire(uuidOf(t, d, "W2"))
	assert.Equal(t, "W1 F1 W2 K1 make contact W6 E1 W7", s.steps(feed.Main))
	assert.Equal(t, "[E2 W8 W9]", s.names(feed.Side), "what else the feed supplies, the coil's own circuit not")
	assert.Equal(t, "W1 F1 W3 S1 W4 K1 coil W5", s.steps(s.TracePin(s.ref("K1.86")).Main))
	assert.Equal(t, s.steps(tr.Main), s.steps(s.TracePart(uuidOf(t, d, "E1")).Main))
	assert.Equal(t, s.steps(tr.Main), s.steps(s.TracePart(uuidOf(t, d, "G1")).Main), "a source's circuit is its largest")
}

func TestTraceParallelFeeds(t *testing.T) {
	s := solve(t, doc(t, "G1 battery\nE1 load-resistive ohm=1\nW1 G1.+ E1.1 1mm2 1000\nW2 G1.+ E1.1 4mm2 1000\nW3 E1.2 G1.- 4mm2 1000"))
	tr := s.TracePart(uuidOf(t, s.Netlist.Doc, "E1"))
	assert.Equal(t, "W2 E1 W3", s.steps(tr.Main), "the better wire carries more")
	assert.Equal(t, "[W1]", s.names(tr.Side))
}

func TestTraceDead(t *testing.T) {
	for _, c := range []struct {
		name, plan, ask, main string
		noSource, noGround    bool
	}{
		{"open switch", "S1 switch-toggle\nE1 lamp watt=5\nW1 G1.+ S1.82 1mm2 100\nW2 S1.82a E1.1 1mm2 100\nW3 E1.2 G1.- 1mm2 100",
			"E1", "W1 [S1] W2 E1 W3", false, false},
		{"relay at rest", "K1 relay-make\nE1 lamp watt=5\nW1 G1.+ K1.30 1mm2 100\nW2 K1.87 E1.1 1mm2 100\nW3 E1.2 G1.- 1mm2 100",
			"E1", "W1 [K1 make contact] W2 E1 W3", false, false},
		{"no ground", "F1 fuse-regular amp=5\nE1 lamp watt=5\nW1 G1.+ F1.1 1mm2 100\nW2 F1.2 E1.1 1mm2 100",
			"E1", "W1 F1 W2 E1", false, true},
		{"no source", "E1 lamp watt=5\nW3 E1.2 G1.- 1mm2 100", "E1", "E1 W3", true, false},
		{"nothing at all", "E1 lamp watt=5", "E1", "E1", true, true},
		{"load without data", "E1 lamp\nW1 G1.+ E1.1 1mm2 100\nW3 E1.2 G1.- 1mm2 100", "E1", "W1 [E1] W3", false, false},
		{"through an open contact rather than another load",
			"S1 switch-toggle\nE1 lamp watt=5\nE2 lamp watt=5\nW1 G1.+ S1.82 1mm2 100\nW2 S1.82a E1.1 1mm2 100\nW3 E1.2 G1.- 1mm2 100\nW4 E1.1 E2.1 1mm2 10\nW5 E2.2 G1.- 1mm2 100",
			"E2", "W1 [S1] W2 W4 E2 W5", false, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := solve(t, doc(t, "G1 battery\n"+c.plan))
			tr := s.TracePart(uuidOf(t, s.Netlist.Doc, c.ask))
			assert.True(t, tr.Dead)
			assert.Equal(t, c.main, s.steps(tr.Main))
			assert.Equal(t, c.noSource, tr.NoSource, "no source")
			assert.Equal(t, c.noGround, tr.NoGround, "no ground")
		})
	}
}

func TestTraceOfNothing(t *testing.T) {
	s := solve(t, doc(t, "G1 battery\nZ1 nobody-knows-this\nX1 connector-plug"))
	for _, tr := range []netlist.Trace{s.TracePart(schematic.ID{1}), s.TraceWire(schematic.ID{1}), s.TracePin(schematic.PinRef{}),
		s.TracePart(uuidOf(t, s.Netlist.Doc, "Z1")), s.TracePart(uuidOf(t, s.Netlist.Doc, "X1"))} {
		assert.True(t, tr.Dead && tr.NoSource && tr.NoGround)
		assert.Empty(t, tr.Main)
	}
}

func TestTraceBranches(t *testing.T) {
	// Two lamps beside the traced one: E2 from the same splice to the same stud,
	// E3 from the way of E2; an alternator feeds in from elsewhere.
	s := solve(t, doc(t, "G1 battery volt=12 ohm=0.01\nG2 alternator limit_amp=5\nSP1 splice\nSP2 splice\nSP3 splice\nE1 load-resistive ohm=1\nE2 load-resistive ohm=4\nE3 load-resistive ohm=8\n"+
		"W1 G1.+ SP1.1"+tenthOhm+"\nW2 SP1.1 E1.1"+tenthOhm+"\nW3 E1.2 SP2.1"+tenthOhm+"\nW4 SP2.1 G1.-"+tenthOhm+
		"\nW5 SP1.1 SP3.1"+tenthOhm+"\nW6 SP3.1 E2.1"+tenthOhm+"\nW7 E2.2 SP2.1"+tenthOhm+"\nW8 SP3.1 E3.1"+tenthOhm+"\nW9 E3.2 SP2.1"+tenthOhm+
		"\nW10 G2.B+ SP1.1"+tenthOhm+"\nW11 SP2.1 G2.B-"+tenthOhm+"\nstate run running"))
	assert.Equal(t, "[W10 W11]", s.names(s.TracePart(uuidOf(t, s.Netlist.Doc, "E1")).Side), "what feeds it and what it feeds, not its neighbours")
	tr := s.TraceWire(uuidOf(t, s.Netlist.Doc, "W1"))
	assert.Equal(t, "W1 W2 E1 W3 W4", s.steps(tr.Main))
	var got []string
	for _, w := range tr.Branches {
		from, to := "-", "-"
		if w.Forks {
			from = s.Netlist.Nodes[w.Fork].Name
		}
		if w.Joins {
			to = s.Netlist.Nodes[w.Join].Name
		}
		got = append(got, from+": "+s.steps(w.Steps)+" :"+to)
	}
	assert.Equal(t, []string{"SP1.1: W5 W6 E2 W7 :SP2.1", "SP2.1: W11 :-", "SP3.1: W8 E3 W9 :SP2.1"}, got, "W10 does not carry what W1 does")
}

// The branches hold what Side holds, each once, each way in one piece from
// where it leaves an earlier one.
func TestTraceBranchesOfRandomDocuments(t *testing.T) {
	many := 0
	for seed := range uint64(80) {
		parts, wires, states := randomPlan(rand.New(rand.NewPCG(seed, 6)))
		n := netlist.Build(doc(t, join(parts, wires, states)))
		for _, s := range n.SolveAll() {
			for i := range n.Branches {
				tr := s.TraceBranch(i)
				met := map[int]bool{}
				for _, st := range tr.Main {
					met[st.From], met[st.To] = true, true
				}
				var all []int
				for _, w := range tr.Branches {
					assert.Equal(t, w.Forks, met[w.Fork], "seed %d", seed)
					assert.Equal(t, w.Joins, met[w.Join], "seed %d", seed)
					node := w.Fork
					for _, st := range w.Steps {
						assert.Equal(t, node, st.From)
						node = st.To
						all = append(all, st.Branch)
					}
					assert.Equal(t, w.Join, node)
					for _, st := range w.Steps {
						met[st.From], met[st.To] = true, true
					}
				}
				many += len(tr.Branches)
				slices.Sort(all)
				assert.Equal(t, tr.Side, all)
			}
			if t.Failed() {
				t.Fatal(seed)
			}
		}
	}
	assert.Greater(t, many, 100)
}

// A stud is traced by what passes its pin, also where nothing goes through its
// own joint; a battery on charge like a load.
func TestTraceOfWhatJoins(t *testing.T) {
	const plan = "G1 battery volt=12 ohm=0.01\nG2 alternator limit_amp=60\nGND1 ground-body\nX0 bus-bar\nX0.1 stud\nX0.2 stud\nSP1 splice\nE1 lamp watt=21\nS1 switch-toggle\n" +
		"W1 G1.+ X0.1" + fat + "\nW2 X0.2 SP1.1" + fat + "\nW3 SP1.1 S1.82" + fat + "\nW4 S1.82a E1.1" + fat + "\nW5 E1.2 GND1.1" + fat + "\nW6 GND1.1 G1.-" + fat +
		"\nW7 G2.B+ X0.1" + fat + "\nW8 G2.B- G1.-" + fat + "\nstate off off\nstate on off S1=on\nstate run running S1=on"
	n := netlist.Build(doc(t, plan))
	sols := n.SolveAll()
	part := func(name string) schematic.ID {
		k, ok := n.Doc.Named(name)
		require.True(t, ok)
		return k.ID
	}
	for _, name := range []string{"GND1", "SP1", "X0"} {
		assert.True(t, sols[0].TracePart(part(name)).Dead, "%s with everything off", name)
		tr := sols[1].TracePart(part(name))
		assert.False(t, tr.Dead, name)
		through := map[string]bool{}
		for _, st := range tr.Main {
			through[n.Branches[st.Branch].Name()] = true
		}
		assert.True(t, through["E1"], "%s: %v", name, through)
	}
	assert.False(t, sols[1].TracePart(part("G1")).Dead)
	charging := sols[2].TracePart(part("G1"))
	assert.False(t, charging.Dead, "on charge")
	assert.Equal(t, "G2.B+", n.Nodes[charging.Main[0].From].Name)
}
