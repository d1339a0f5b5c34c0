package main

import (
	"fmt"
	"math"
	"strings"
	"text/tabwriter"

	"loomwright/netlist"
)

type worstJSON struct {
	head
	File    string          `json:"file"`
	Missing []string        `json:"missing"` // what the figures had to do without
	Missed  []string        `json:"missed"`  // loads of which not every way to switch them on was looked at
	Failed  int             `json:"failed"`  // combinations that cannot be computed
	Error   string          `json:"error,omitempty"`
	Wires   []worstWireJSON `json:"wires"`
	Caution string          `json:"caution"`
}

// worstWireJSON is the highest current of one wire; with is null where nothing
// ever flows, and states_amps where the file has no operating state.
type worstWireJSON struct {
	ID     string    `json:"id"`
	Name   string    `json:"name"`
	A      string    `json:"a"`
	B      string    `json:"b"`
	Amps   float64   `json:"amps"`
	Bound  float64   `json:"bound_amps"`
	Sure   bool      `json:"bound_sure"` // else the bound is an estimate
	States *float64  `json:"states_amps"`
	With   *withJSON `json:"with"`
}

// withJSON is a combination of switches and outputs.
type withJSON struct {
	Text   string        `json:"text"`
	Engine string        `json:"engine"`
	Set    []settingJSON `json:"set"`
}

type settingJSON struct {
	Part     string `json:"part"`
	Item     string `json:"item,omitempty"`
	Position string `json:"position"`
}

func runWorst(a *app, args []string) (int, error) {
	path, n, sols, err := a.solved(args)
	if err != nil {
		return 0, err
	}
	found := n.Worst()
	out := worstJSON{head: headOf("worst"), File: path, Missing: missing(n), Missed: n.Names(found.Missed), Failed: found.Failed,
		Wires: []worstWireJSON{}, Caution: caution}
	code := exitClean
	if found.Err != nil {
		out.Error, code = found.Err.Error(), exitFindings
	}
	for _, x := range found.Wires {
		out.Wires = append(out.Wires, worstOf(n, sols, x))
	}
	if a.opt.json {
		return code, printJSON(a.out, out)
	}
	a.printWorst(out)
	return code, nil
}

func worstOf(n *netlist.Netlist, sols []*netlist.Solution, x netlist.Strain) worstWireJSON {
	br := &n.Branches[x.Wire]
	j := worstWireJSON{ID: id(br.Wire.ID), Name: br.Name(), A: n.Nodes[br.A].Name, B: n.Nodes[br.B].Name, Amps: x.Amp, Bound: x.Bound, Sure: x.Sure}
	if len(n.Doc.States()) > 0 {
		most := 0.0
		for _, s := range sols {
			if s.Err == nil {
				most = max(most, math.Abs(s.Amp[x.Wire]))
			}
		}
		j.States = &most
	}
	if x.State == nil {
		return j
	}
	j.With = &withJSON{Text: x.State.Name, Engine: string(x.State.Engine), Set: []settingJSON{}}
	for _, set := range x.State.Set {
		j.With.Set = append(j.With.Set, settingJSON{n.Doc.Part(set.Part).Name, set.Item, set.Position})
	}
	return j
}

func (a *app) printWorst(j worstJSON) {
	if len(j.Missing) > 0 {
		fmt.Fprintf(a.out, "NOT KNOWN, so the figures leave it out or stand something in for it\n  %s\n\n", strings.Join(j.Missing, "\n  "))
	}
	if len(j.Missed) > 0 {
		fmt.Fprintf(a.out, "NOT LOOKED AT: every way to switch on %s; the currents may be higher\n\n", strings.Join(j.Missed, ", "))
	}
	if j.Failed > 0 {
		fmt.Fprintf(a.out, "NOT COMPUTED: %d combinations, the currents may be higher; the first %s\n\n", j.Failed, j.Error)
	}
	tw := tabwriter.NewWriter(a.out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(tw, "wire\tfrom\tto\thighest\tat most\tin the states\twith")
	for _, w := range j.Wires {
		with := "nothing flows"
		if w.With != nil {
			with = w.With.Text
		}
		states := "no states"
		if w.States != nil {
			states = amps(w.States)
		}
		bound := amps(&w.Bound)
		if !w.Sure {
			bound = "about " + bound
		}
		fmt.Fprintf(tw, "%s\t%s\t%s\t%s\t%s\t%s\t%s\n", w.Name, w.A, w.B, amps(&w.Amps), bound, states, with)
	}
	tw.Flush()
	fmt.Fprintf(a.out, "\n\"highest\" occurs with the combination named; none exceeds \"at most\", as far as loads draw most when alone; \"about\" is an\n"+
		"estimate, where wires share a current. Starting currents, faults and loads without data are not in it.\n%s\n", caution)
}
