package main

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"loomwright/netlist"
	"loomwright/netlist/table"
)

type ohmsJSON struct {
	head
	File      string    `json:"file"`
	From      string    `json:"from"`
	To        string    `json:"to"`
	State     string    `json:"state,omitempty"`
	Unplugged bool      `json:"unplugged"`
	Open      bool      `json:"open"`
	Ohm       *float64  `json:"ohm"`
	Path      []ohmStep `json:"path"`
	Missing   []string  `json:"missing"`
	Unclear   []string  `json:"unclear"`
	Caution   string    `json:"caution"`
}

type ohmStep struct {
	Through string `json:"through"`
	Type    string `json:"type"`
	From    string `json:"from"`
	To      string `json:"to"`
}

func runOhms(a *app, args []string) (int, error) {
	if len(args) != 3 {
		return 0, fmt.Errorf("give a file and two pins (F3.1 X2.4), found %s", counted(len(args)))
	}
	if a.opt.unplugged && a.opt.state != "" {
		return 0, errors.New("give -state or -unplugged: a harness on the bench has no switches in it")
	}
	d, err := a.load(args[0])
	if err != nil {
		return 0, err
	}
	n := netlist.Build(d)
	var node [2]int
	for i, name := range args[1:] {
		ref, err := table.PinNamed(d, name)
		if err != nil {
			return 0, err
		}
		node[i] = n.NodeOf(ref)
	}
	bench := netlist.Bench{Unplugged: a.opt.unplugged}
	if a.opt.state != "" {
		states, err := a.states(d)
		if err != nil {
			return 0, err
		}
		bench.State = states[0]
	}
	r, err := netlist.Continuity(n, node[0], node[1], bench)
	if err != nil {
		return 0, err
	}
	out := ohmsJSON{head: headOf("ohms"), File: args[0], From: args[1], To: args[2], Unplugged: bench.Unplugged, Open: r.Open(),
		Ohm: number(r.Ohm, !r.Open()), Path: []ohmStep{}, Missing: n.Names(r.Missing), Unclear: n.Names(r.Unclear), Caution: caution}
	if bench.State != nil {
		out.State = bench.State.Name
	}
	for _, st := range r.Path {
		br := &n.Branches[st.Branch]
		out.Path = append(out.Path, ohmStep{br.Name(), branchType(br), n.Nodes[st.From].Name, n.Nodes[st.To].Name})
	}
	if a.opt.json {
		return exitClean, printJSON(a.out, out)
	}
	a.printOhms(out)
	return exitClean, nil
}

func (a *app) printOhms(j ohmsJSON) {
	how := "everything at rest"
	switch {
	case j.Unplugged:
		how = "everything unplugged"
	case j.State != "":
		how = fmt.Sprintf("switches as in %q", j.State)
	}
	fmt.Fprintf(a.out, "%s to %s, no supply, %s: %s\n", j.From, j.To, how, ohms(j.Ohm))
	for i, st := range j.Path {
		if i == 0 {
			fmt.Fprintf(a.out, "  %s\n", st.From)
		}
		fmt.Fprintf(a.out, "    | %s, %s\n  %s\n", st.Through, st.Type, st.To)
	}
	if len(j.Missing) > 0 {
		fmt.Fprintf(a.out, "  not to be relied on, a resistance is not known: %s\n", strings.Join(j.Missing, ", "))
	}
	if len(j.Unclear) > 0 {
		fmt.Fprintf(a.out, "  counted as open, though a meter may see something: %s\n", strings.Join(j.Unclear, ", "))
	}
	fmt.Fprintf(a.out, "\n%s\n", caution)
}

func ohms(v *float64) string {
	switch {
	case v == nil:
		return "open"
	case math.Abs(*v) < 1:
		return fmt.Sprintf("%.1f mΩ", *v*1000+0)
	case *v < 1000:
		return fmt.Sprintf("%.2f Ω", *v)
	}
	return fmt.Sprintf("%.2f kΩ", *v/1000)
}
