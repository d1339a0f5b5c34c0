package main

import (
	"fmt"
	"math"
	"strings"

	"loomwright/netlist"
	"loomwright/netlist/table"
	"loomwright/schematic"
)

type traceJSON struct {
	head
	File    string           `json:"file"`
	Of      string           `json:"of"`
	States  []traceStateJSON `json:"states"`
	Caution string           `json:"caution"`
}

type traceStateJSON struct {
	State    string     `json:"state"`
	Error    string     `json:"error,omitempty"`
	Dead     bool       `json:"dead"`
	NoSource bool       `json:"no_source"`
	NoGround bool       `json:"no_ground"`
	Path     []stepJSON `json:"path"`
	Side     []stepJSON `json:"side"`
	Branches []sideJSON `json:"branches"`
}

// sideJSON is a way beside the path; fork and join are null where it comes from
// elsewhere, or does not come back.
type sideJSON struct {
	Fork *string    `json:"fork"`
	Join *string    `json:"join"`
	Path []stepJSON `json:"path"`
}

type stepJSON struct {
	Through string   `json:"through"`
	Type    string   `json:"type"`
	From    string   `json:"from"`
	To      string   `json:"to"`
	VoltIn  *float64 `json:"volts_from"`
	VoltOut *float64 `json:"volts_to"`
	Amps    *float64 `json:"amps"`
	Open    bool     `json:"open"`
}

func runTrace(a *app, args []string) (int, error) {
	if len(args) != 2 {
		return 0, fmt.Errorf("give a file and a pin (F3.1), a wire (W12) or a part (M1), found %s", counted(len(args)))
	}
	d, err := a.load(args[0])
	if err != nil {
		return 0, err
	}
	find, err := tracer(d, args[1])
	if err != nil {
		return 0, err
	}
	_, sols, err := a.solve(d)
	if err != nil {
		return 0, err
	}
	out := traceJSON{head: headOf("trace"), File: args[0], Of: args[1], Caution: caution}
	for _, s := range sols {
		out.States = append(out.States, traceOf(s, find(s)))
	}
	if a.opt.json {
		return computed(sols), printJSON(a.out, out)
	}
	for _, st := range out.States {
		a.printTrace(args[1], st)
	}
	fmt.Fprintln(a.out, caution)
	return computed(sols), nil
}

// tracer finds what a name means: a wire, a part, or a pin "part.pin".
func tracer(d *schematic.Doc, name string) (func(*netlist.Solution) netlist.Trace, error) {
	if k, ok := d.Named(name); ok {
		switch k.Type {
		case schematic.TypeWire:
			return func(s *netlist.Solution) netlist.Trace { return s.TraceWire(k.ID) }, nil
		case schematic.TypePart:
			return func(s *netlist.Solution) netlist.Trace { return s.TracePart(k.ID) }, nil
		}
	}
	ref, err := table.PinNamed(d, name)
	if err != nil {
		return nil, fmt.Errorf("%w; a wire (W12) or a part (M1) will do too", err)
	}
	return func(s *netlist.Solution) netlist.Trace { return s.TracePin(ref) }, nil
}

func traceOf(s *netlist.Solution, t netlist.Trace) traceStateJSON {
	j := traceStateJSON{State: s.State.Name, Dead: t.Dead, NoSource: t.NoSource, NoGround: t.NoGround, Path: []stepJSON{}, Side: []stepJSON{}, Branches: []sideJSON{}}
	if s.Err != nil {
		j.Error = s.Err.Error()
	}
	for _, st := range t.Main {
		j.Path = append(j.Path, stepOf(s, st.Branch, st.From, st.To, st.Open))
	}
	for _, b := range t.Side {
		br := &s.Netlist.Branches[b]
		from, to := br.A, br.B
		if s.Amp[b] < 0 {
			from, to = to, from
		}
		j.Side = append(j.Side, stepOf(s, b, from, to, false))
	}
	for _, w := range t.Branches {
		var side sideJSON
		if w.Forks {
			side.Fork = &s.Netlist.Nodes[w.Fork].Name
		}
		if w.Joins {
			side.Join = &s.Netlist.Nodes[w.Join].Name
		}
		for _, st := range w.Steps {
			side.Path = append(side.Path, stepOf(s, st.Branch, st.From, st.To, false))
		}
		j.Branches = append(j.Branches, side)
	}
	return j
}

func stepOf(s *netlist.Solution, branch, from, to int, open bool) stepJSON {
	br := &s.Netlist.Branches[branch]
	return stepJSON{
		Through: br.Name(), Type: branchType(br),
		From: s.Netlist.Nodes[from].Name, To: s.Netlist.Nodes[to].Name,
		VoltIn: number(s.VoltAt(from)), VoltOut: number(s.VoltAt(to)),
		Amps: number(math.Abs(s.Amp[branch]), s.Err == nil), Open: open,
	}
}

// branchType is the word for what a branch is: wire, plugged contact, or the
// element type.
func branchType(br *netlist.Branch) string {
	switch br.Role {
	case netlist.RoleWire:
		return "wire"
	case netlist.RoleMate:
		return "plugged contact"
	}
	return string(br.Element.Type)
}

func (a *app) printTrace(of string, st traceStateJSON) {
	fmt.Fprintf(a.out, "%s in state %q", of, st.State)
	switch {
	case st.Error != "":
		fmt.Fprintf(a.out, ": %s", st.Error)
	case st.Dead:
		fmt.Fprint(a.out, ": no current flows")
	}
	if st.NoSource {
		fmt.Fprint(a.out, "; no way from a source")
	}
	if st.NoGround {
		fmt.Fprint(a.out, "; no way back to a source")
	}
	fmt.Fprintln(a.out)
	for i, step := range st.Path {
		if i == 0 {
			fmt.Fprintf(a.out, "  %9s  %s\n", volts(step.VoltIn), step.From)
		}
		mark := ""
		if step.Open {
			mark = "   OPEN HERE"
		}
		fmt.Fprintf(a.out, "             | %s, %s, %s%s\n", step.Through, step.Type, amps(step.Amps), mark)
		fmt.Fprintf(a.out, "  %9s  %s\n", volts(step.VoltOut), step.To)
	}
	for _, w := range st.Branches {
		var names []string
		for _, step := range w.Path {
			names = append(names, step.Through)
		}
		first, last := w.Path[0], w.Path[len(w.Path)-1]
		from, to := "from "+first.From, "to "+last.To
		if w.Fork != nil {
			from = "leaves at " + *w.Fork
		}
		if w.Join != nil {
			to = "comes back at " + *w.Join
		}
		fmt.Fprintf(a.out, "  beside it, %s: %s, %s %s\n", amps(first.Amps), from, strings.Join(names, ", "), to)
	}
	fmt.Fprintln(a.out)
}

func volts(v *float64) string {
	if v == nil {
		return "no volts"
	}
	return fmt.Sprintf("%.3f V", *v+0)
}

func amps(v *float64) string {
	if v == nil {
		return "current unknown"
	}
	if math.Abs(*v) < 0.1 {
		return fmt.Sprintf("%.1f mA", *v*1000+0)
	}
	return fmt.Sprintf("%.2f A", *v)
}
