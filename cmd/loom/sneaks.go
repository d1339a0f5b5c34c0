package main

import (
	"fmt"
	"strings"

	"loomwright/netlist"
)

type sneaksJSON struct {
	head
	File    string      `json:"file"`
	Faults  bool        `json:"faults"` // whether lost grounds were tried
	Sneaks  []sneakJSON `json:"sneaks"`
	Errors  []string    `json:"errors"` // states that cannot be computed
	Caution string      `json:"caution"`
}

type sneakJSON struct {
	Kind  string     `json:"kind"`
	State string     `json:"state,omitempty"`
	Fault string     `json:"fault,omitempty"` // what is open
	Items []string   `json:"items"`
	Volts *float64   `json:"volts"`
	Amps  *float64   `json:"amps"`
	Text  string     `json:"text"`
	Path  []stepJSON `json:"path"`
}

func runSneaks(a *app, args []string) (int, error) {
	path, n, sols, err := a.solved(args)
	if err != nil {
		return 0, err
	}
	found := netlist.Sneaks(sols)
	if a.opt.faults {
		lost, _ := netlist.LostGrounds(sols, func(float64) bool { return true })
		found = append(found, lost...)
	}
	out := sneaksJSON{head: headOf("sneaks"), File: path, Faults: a.opt.faults, Sneaks: []sneakJSON{}, Errors: []string{}, Caution: caution}
	for _, s := range sols {
		if s.Err != nil {
			out.Errors = append(out.Errors, fmt.Sprintf("%s: %v", s.State.Name, s.Err))
		}
	}
	for _, x := range found {
		out.Sneaks = append(out.Sneaks, sneakOf(n, x))
	}
	if a.opt.json {
		return computed(sols), printJSON(a.out, out)
	}
	a.printSneaks(out)
	return computed(sols), nil
}

func sneakOf(n *netlist.Netlist, x netlist.Sneak) sneakJSON {
	j := sneakJSON{Kind: string(x.Kind), Items: []string{}, Volts: number(x.Volt, x.Amp != 0), Amps: number(x.Amp, x.Amp != 0), Text: x.Text, Path: []stepJSON{}}
	if x.State != nil {
		j.State = x.State.Name
	}
	if x.Fault >= 0 {
		j.Fault = n.Branches[x.Fault].Name()
	}
	for _, i := range x.Items {
		j.Items = append(j.Items, n.Branches[i].Name())
	}
	for _, st := range x.Path.Main {
		j.Path = append(j.Path, stepOf(x.In, st.Branch, st.From, st.To, st.Open))
	}
	return j
}

func (a *app) printSneaks(j sneaksJSON) {
	for _, e := range j.Errors {
		fmt.Fprintf(a.out, "NOT COMPUTED, so nothing is said of it: %s\n", e)
	}
	last := ""
	for _, x := range j.Sneaks {
		if x.Kind != last {
			fmt.Fprintln(a.out, strings.ToUpper(x.Kind))
			last = x.Kind
		}
		fmt.Fprintf(a.out, "  %s\n", x.Text)
		if len(x.Path) == 0 {
			continue
		}
		way := []string{x.Path[0].From}
		for _, st := range x.Path {
			way = append(way, st.Through)
		}
		way = append(way, x.Path[len(x.Path)-1].To)
		fmt.Fprintf(a.out, "      way  %s\n", strings.Join(way, ", "))
	}
	if len(j.Sneaks) == 0 {
		fmt.Fprintln(a.out, "no current takes a way nobody meant, as far as the operating states show")
	}
	if !j.Faults {
		fmt.Fprintln(a.out, "\nAll grounds are in place here: -faults opens each of them in turn.")
	}
	fmt.Fprintf(a.out, "\n%s\n", caution)
}
