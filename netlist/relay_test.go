package netlist_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist"
	"loomwright/schematic"
)

// inTurn solves operating states one after the other, relays held as the state
// before leaves them.
func inTurn(s *netlist.Solver, states ...*schematic.State) []*netlist.Solution {
	var out []*netlist.Solution
	var before *netlist.Solution
	for _, st := range states {
		before = s.SolveAfter(st, before)
		out = append(out, before)
	}
	return out
}

// A relay with a start button, held by its own contact until a break button
// lets it go: the same switch positions give two answers, and what went before
// decides.
func TestSelfHoldingRelay(t *testing.T) {
	d := doc(t, "G1 battery volt=12 ohm=0.01\nS1 switch-push-make\nS2 switch-push-break\nK1 relay-make\nE1 load-resistive ohm=12\n"+
		"W1 G1.+ S2.81"+fat+"\nW2 S2.81a S1.82"+fat+"\nW3 S1.82a K1.86"+fat+"\nW4 K1.85 G1.-"+fat+
		"\nW5 S2.81a K1.30"+fat+"\nW6 K1.87 K1.86"+fat+"\nW7 K1.87 E1.1"+fat+"\nW8 E1.2 G1.-"+fat+
		"\nstate rest off\nstate press off S1=pressed\nstate stop off S2=pressed")
	st := d.States()
	n := netlist.Build(d)
	solver := netlist.NewSolver(n)
	var got []string
	for _, s := range inTurn(solver, st[0], st[1], st[0], st[2], st[0]) {
		closes(t, s)
		got = append(got, fmt.Sprintf("%s %.0f", s.State.Name, sheet{t, s}.wire("W7")))
	}
	assert.Equal(t, []string{"rest 0", "press 1", "rest 1", "stop 0", "rest 0"}, got)
	assert.InDelta(t, 0, sheet{t, solver.Solve(st[0])}.wire("W7"), 1e-6, "alone, a state is entered with all at rest")
}

// Between drop-out (1.2 V) and pull-in (8.4 V) a coil stays as it is.
func TestHysteresis(t *testing.T) {
	d := doc(t, "G1 battery volt=12 ohm=0\nS1 switch-toggle\nR1 resistor ohm=80\nR2 resistor ohm=20\nS2 switch-toggle\nK1 relay-make coil_ohm=80\nE1 load-resistive ohm=12\n"+
		"W1 G1.+ R1.1"+fat+"\nW2 R1.2 K1.86"+fat+"\nW3 K1.85 G1.-"+fat+"\nW4 R1.1 S1.82"+fat+"\nW5 S1.82a R1.2"+fat+
		"\nW6 K1.86 S2.82"+fat+"\nW7 S2.82a R2.1"+fat+"\nW8 R2.2 G1.-"+fat+"\nW9 G1.+ K1.30"+fat+"\nW10 K1.87 E1.1"+fat+"\nW11 E1.2 G1.-"+fat+
		"\nstate six off\nstate twelve off S1=on\nstate two off S2=on")
	st := d.States()
	solver := netlist.NewSolver(netlist.Build(d))
	on := func(s *netlist.Solution) bool { closes(t, s); return sheet{t, s}.wire("W10") > 0.5 }
	assert.False(t, on(solver.Solve(st[0])), "6 V do not pull in")
	seq := inTurn(solver, st[1], st[0], st[2], st[0])
	assert.True(t, on(seq[0]), "12 V do")
	assert.True(t, on(seq[1]), "6 V hold")
	assert.InDelta(t, 12*16.0/96, sheet{t, seq[2]}.volt("K1.86"), 0.01)
	assert.True(t, on(seq[2]), "2 V still hold")
	assert.Equal(t, []string{"K1 coil"}, seq[2].Netlist.Names(seq[2].Pulled))
}

func TestChatterIsToldInWords(t *testing.T) {
	s := solve(t, doc(t, "G1 battery volt=12 ohm=0\nK1 relay-change-over\nW1 G1.+ K1.30"+fat+"\nW2 K1.87a K1.86"+fat+"\nW3 K1.85 G1.-"+fat))
	assert.Equal(t, []string{"K1 coil"}, s.Chattering)
	assert.Regexp(t, `^K1 coil gets 12 V and pulls in, K1 \S+ contact opens; K1 coil gets \S+ V and lets go, K1 \S+ contact closes; and so on$`, s.ChatterLoop)
	assert.NotContains(t, s.ChatterLoop, "make", "the make contact has no part in it")

	// Three relays, each held off by the next: a ring that never rests.
	ring := "G1 battery volt=12 ohm=0\n"
	for i := range 3 {
		next := (i+1)%3 + 1
		ring += fmt.Sprintf("K%d relay-change-over\nW%d G1.+ K%d.30%s\nW%d K%d.85 G1.-%s\n", i+1, i+1, i+1, fat, i+11, i+1, fat)
		ring += fmt.Sprintf("W%d K%d.87a SP%d.1%s\n", i+21, i+1, next, fat)
	}
	ring = "SP1 splice\nSP2 splice\nSP3 splice\n" + ring
	for i := range 3 {
		ring += fmt.Sprintf("W%d SP%d.1 K%d.86%s\n", i+31, i+1, i+1, fat)
	}
	r := solve(t, doc(t, ring))
	assert.Equal(t, []string{"K1 coil", "K2 coil", "K3 coil"}, r.Chattering)
	assert.Contains(t, r.ChatterLoop, "K2 coil gets")
}

// Each relay takes the other's voltage away: one wins, and nobody knows which.
func TestInterlockedRelaysRace(t *testing.T) {
	s := solve(t, doc(t, "G1 battery volt=12 ohm=0\nK1 relay-change-over\nK2 relay-change-over\nW1 G1.+ K1.30"+fat+"\nW2 G1.+ K2.30"+fat+
		"\nW3 K1.87a K2.86"+fat+"\nW4 K2.87a K1.86"+fat+"\nW5 K1.85 G1.-"+fat+"\nW6 K2.85 G1.-"+fat))
	assert.Equal(t, []string{"K1 coil", "K2 coil"}, s.Racing)
	assert.Empty(t, s.Chattering)
	assert.Len(t, s.Pulled, 1, "one outcome is shown")
}

// A buzzer beside them does not hide that they race, and the contacts a buzzer
// works do not race.
func TestRaceBesideABuzzerIsFound(t *testing.T) {
	s := solve(t, doc(t, "G1 battery volt=12 ohm=0\nK1 relay-change-over\nK2 relay-change-over\nW1 G1.+ K1.30"+fat+"\nW2 G1.+ K2.30"+fat+
		"\nW3 K1.87a K2.86"+fat+"\nW4 K2.87a K1.86"+fat+"\nW5 K1.85 G1.-"+fat+"\nW6 K2.85 G1.-"+fat+
		"\nK3 relay-change-over\nW11 G1.+ K3.30"+fat+"\nW12 K3.87a K3.86"+fat+"\nW13 K3.85 G1.-"+fat+
		"\nK4 relay-make\nW21 K3.87 K4.86"+fat+"\nW22 K4.85 G1.-"+fat))
	assert.Equal(t, []string{"K1 coil", "K2 coil"}, s.Racing)
	assert.Equal(t, []string{"K3 coil"}, s.Chattering)
	assert.Contains(t, s.ChatterLoop, "K3 coil gets 12 V and pulls in")
	closes(t, s.Solution)
}

// Relays, diodes and switches wired at random always come to an answer, and the
// answer agrees with the coils or says that it does not.
func TestRelaysAndDiodesAtRandomEnd(t *testing.T) {
	chatter, race := 0, 0
	for seed := range uint64(250) {
		rng := rand.New(rand.NewPCG(seed, 9))
		lines, wires := []string{"G1 battery volt=12.6 ohm=0.01"}, 0
		wire := func(a, b string) {
			wires++
			lines = append(lines, fmt.Sprintf("W%d %s %s 1mm2 500", wires, a, b))
		}
		relays := 2 + rng.IntN(9)
		for i := range relays {
			lines = append(lines, fmt.Sprintf("K%d relay-change-over", i+1))
		}
		some := func(pin string) string { return fmt.Sprintf("K%d.%s", 1+rng.IntN(relays), pin) }
		for i := range relays {
			k := fmt.Sprintf("K%d.", i+1)
			feed := "G1.+"
			if rng.IntN(4) == 0 {
				feed = some("87")
			}
			wire(k+"30", feed)
			wire(k+"85", []string{"G1.-", "G1.-", "G1.-", some("87a")}[rng.IntN(4)])
			for _, pin := range []string{"87", "87a"} {
				to := some("86")
				if rng.IntN(2) == 0 {
					part, ends := fmt.Sprintf("V%d%s", i+1, pin[2:]), [2]string{"A", "K"}
					lines = append(lines, part+" diode")
					if rng.IntN(4) == 0 {
						ends = [2]string{"K", "A"}
					}
					wire(k+pin, part+"."+ends[0])
					wire(part+"."+ends[1], to)
				} else if rng.IntN(3) > 0 {
					wire(k+pin, to)
				}
			}
		}
		n := netlist.Build(doc(t, strings.Join(lines, "\n")))
		first, again := n.Solve(nil), n.Solve(nil)
		closes(t, first)
		coilsAgree(t, first)
		require.Equal(t, first.Amp, again.Amp, "seed %d", seed)
		chatter += len(first.Chattering)
		race += len(first.Racing)
		if len(first.Chattering) > 0 {
			assert.Contains(t, first.ChatterLoop, "and so on")
			assert.Contains(t, first.ChatterLoop, first.Chattering[0])
		}
	}
	assert.Positive(t, chatter, "some of them chatter")
	assert.Positive(t, race, "and some race")
}
