package main

import (
	"fmt"
	"math"
	"strings"
	"text/tabwriter"

	"loomwright/netlist"
)

type currentsJSON struct {
	head
	File string `json:"file"`
	// Missing lists what the figures of every state had to do without.
	Missing []string    `json:"missing"`
	States  []stateJSON `json:"states"`
	Caution string      `json:"caution"`
}

func runCurrents(a *app, args []string) (int, error) {
	path, n, sols, err := a.solved(args)
	if err != nil {
		return 0, err
	}
	out := currentsJSON{head: headOf("currents"), File: path, Missing: missing(n), Caution: caution}
	for _, s := range sols {
		out.States = append(out.States, stateOf(s))
	}
	if a.opt.json {
		return computed(sols), printJSON(a.out, out)
	}
	if len(out.Missing) > 0 {
		fmt.Fprintf(a.out, "NOT KNOWN, so the figures leave it out or stand something in for it\n  %s\n\n", strings.Join(out.Missing, "\n  "))
	}
	for _, st := range out.States {
		a.printState(st)
	}
	fmt.Fprintln(a.out, caution)
	return computed(sols), nil
}

// computed is the exit code that tells whether every state could be computed.
func computed(sols []*netlist.Solution) int {
	for _, s := range sols {
		if s.Err != nil {
			return exitFindings
		}
	}
	return exitClean
}

// missing names the values that a computation lacks: "W6: length".
func missing(n *netlist.Netlist) []string {
	out := []string{}
	for _, p := range n.Unknown {
		out = append(out, fmt.Sprintf("%s: part kind %q", p.Name, p.Kind))
	}
	for i := range n.Branches {
		if br := &n.Branches[i]; len(br.Missing) > 0 {
			out = append(out, br.Name()+": "+strings.Join(br.Missing, ", "))
		}
	}
	return out
}

func (a *app) printState(st stateJSON) {
	fmt.Fprintf(a.out, "STATE %s (engine %s)\n", st.Name, st.Engine)
	for _, n := range st.Notes {
		fmt.Fprintf(a.out, "  note: %s\n", n)
	}
	if st.Error != "" {
		fmt.Fprintf(a.out, "  cannot be computed: %s\n\n", st.Error)
		return
	}
	if len(st.Chatter) > 0 {
		fmt.Fprintf(a.out, "  chattering, shown in one of their positions: %s\n", strings.Join(st.Chatter, ", "))
		fmt.Fprintf(a.out, "    %s\n", st.Loop)
	}
	for _, x := range []struct {
		words string
		names []string
	}{
		{"which of these coils moves first decides; one outcome is shown", st.Racing},
		{"gives its largest current", st.Limiting},
		{"gets less voltage than it works from", st.Starved},
		{"carries more than its limit", st.Over},
		{"is fed the wrong way round", st.Reversed},
		{"has no steady temperature", st.Unsteady},
	} {
		if len(x.names) > 0 {
			fmt.Fprintf(a.out, "  %s: %s\n", x.words, strings.Join(x.names, ", "))
		}
	}
	tw := tabwriter.NewWriter(a.out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(tw, "  wire\tfrom\tto\tcurrent\tvolts from\tvolts to\tresistance")
	for _, w := range st.Wires {
		from, to, va, vb := w.A, w.B, w.VoltsA, w.VoltsB
		if w.Amps != nil && *w.Amps < 0 {
			from, to, va, vb = to, from, vb, va
		}
		ohm := "not known: " + strings.Join(w.Missing, ", ")
		if w.Ohm != nil {
			ohm = fmt.Sprintf("%.2f mΩ", *w.Ohm*1000)
		}
		fmt.Fprintf(tw, "  %s\t%s\t%s\t%s\t%s\t%s\t%s\n", w.Name, from, to, amps(size(w.Amps)), volts(va), volts(vb), ohm)
	}
	tw.Flush()
	var floating []string
	for _, n := range st.Nets {
		if n.Floating {
			floating = append(floating, n.Name)
		}
	}
	if len(floating) > 0 {
		fmt.Fprintf(a.out, "  no way to battery negative, so no volts: %s\n", strings.Join(floating, ", "))
	}
	fmt.Fprintf(a.out, "  power given out %.1f W, taken up %.1f W; currents close within %.1g A\n\n", st.Power.Generated, st.Power.Dissipated, st.KCL)
}

// size is the number without its sign.
func size(v *float64) *float64 {
	if v == nil {
		return nil
	}
	abs := math.Abs(*v)
	return &abs
}
