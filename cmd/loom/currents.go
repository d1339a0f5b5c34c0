package main

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"text/tabwriter"

	"loomwright/netlist"
	"loomwright/schematic"
)

type currentsJSON struct {
	File    string      `json:"file"`
	States  []stateJSON `json:"states"`
	Caution string      `json:"caution"`
}

type stateJSON struct {
	ID      string     `json:"id"`
	Name    string     `json:"name"`
	Engine  string     `json:"engine"`
	Error   string     `json:"error,omitempty"`
	Wires   []wireJSON `json:"wires"`
	Nets    []netJSON  `json:"nets"`
	Parts   []partJSON `json:"parts"`
	KCL     float64    `json:"kcl_residual_amps"`
	Power   powerJSON  `json:"power"`
	Chatter []string   `json:"chattering"`
	Notes   []string   `json:"notes"`
}

type wireJSON struct {
	ID      string   `json:"id"`
	Name    string   `json:"name"`
	A       string   `json:"a"`
	B       string   `json:"b"`
	Amps    *float64 `json:"amps"`
	VoltsA  *float64 `json:"volts_a"`
	VoltsB  *float64 `json:"volts_b"`
	Ohm     *float64 `json:"ohm"`
	WireOhm *float64 `json:"conductor_ohm"`
	JointA  float64  `json:"joint_a_ohm"`
	JointB  float64  `json:"joint_b_ohm"`
	Length  *float64 `json:"length_mm"`
	Ambient float64  `json:"ambient_c"`
	Missing []string `json:"missing,omitempty"`
}

type netJSON struct {
	Name     string       `json:"name"`
	Floating bool         `json:"floating"`
	Volts    *float64     `json:"volts"`
	Min      *float64     `json:"volts_min"`
	Max      *float64     `json:"volts_max"`
	Pins     []pinVoltage `json:"pins"`
}

type pinVoltage struct {
	Pin   string   `json:"pin"`
	Volts *float64 `json:"volts"`
}

type partJSON struct {
	ID        string        `json:"id"`
	Name      string        `json:"name"`
	Kind      string        `json:"kind"`
	Terminals []terminal    `json:"terminals"`
	Elements  []elementJSON `json:"elements"`
}

type terminal struct {
	Pin  string   `json:"pin"`
	Amps *float64 `json:"amps"`
}

type elementJSON struct {
	Name    string   `json:"name"`
	Type    string   `json:"type"`
	A       string   `json:"a"`
	B       string   `json:"b"`
	Amps    *float64 `json:"amps"`
	Volts   *float64 `json:"volts"`
	Missing []string `json:"missing,omitempty"`
}

type powerJSON struct {
	Generated  float64 `json:"generated_w"`
	Dissipated float64 `json:"dissipated_w"`
	Imbalance  float64 `json:"imbalance_w"`
}

func runCurrents(a *app, args []string) (int, error) {
	path, err := only(args)
	if err != nil {
		return 0, err
	}
	d, err := a.load(path)
	if err != nil {
		return 0, err
	}
	_, sols, err := a.solve(d)
	if err != nil {
		return 0, err
	}
	out := currentsJSON{File: path, Caution: caution}
	for _, s := range sols {
		out.States = append(out.States, stateOf(s))
	}
	if a.opt.json {
		return exitClean, printJSON(a.out, out)
	}
	for _, st := range out.States {
		a.printState(st)
	}
	fmt.Fprintln(a.out, caution)
	return exitClean, nil
}

func stateOf(s *netlist.Solution) stateJSON {
	st := stateJSON{
		ID: id(s.State.ID), Name: s.State.Name, Engine: string(s.State.Engine),
		Wires: []wireJSON{}, Nets: []netJSON{}, Parts: []partJSON{},
		KCL:     s.ResidualAmp,
		Power:   powerJSON{s.GeneratedWatt, s.DissipatedWatt, s.ImbalanceWatt},
		Chatter: append([]string{}, s.Chattering...), Notes: append([]string{}, s.Notes...),
	}
	if st.Engine == "" {
		st.Engine = string(schematic.EngineOff)
	}
	if s.Err != nil {
		st.Error = s.Err.Error()
	}
	d := s.Netlist.Doc
	for _, w := range sorted(slices.Collect(d.Wires())) {
		st.Wires = append(st.Wires, wireOf(s, w))
	}
	for i := range s.Netlist.Nets {
		st.Nets = append(st.Nets, netOf(s, &s.Netlist.Nets[i]))
	}
	slices.SortStableFunc(st.Nets, func(a, b netJSON) int { return schematic.CompareNames(a.Name, b.Name) })
	for _, p := range sorted(slices.Collect(d.Parts())) {
		st.Parts = append(st.Parts, partOf(s, p))
	}
	return st
}

func wireOf(s *netlist.Solution, w *schematic.Wire) wireJSON {
	i := s.Netlist.WireBranch(w.ID)
	br := &s.Netlist.Branches[i]
	c := br.Conductor
	return wireJSON{
		ID: id(w.ID), Name: w.Name, A: s.Netlist.Nodes[br.A].Name, B: s.Netlist.Nodes[br.B].Name,
		Amps:   number(s.WireAmp(w.ID)),
		VoltsA: number(s.VoltAt(br.A)), VoltsB: number(s.VoltAt(br.B)),
		Ohm: number(br.Ohm, br.OhmKnown), WireOhm: number(c.WireOhm, br.OhmKnown),
		JointA: c.JointOhm[0], JointB: c.JointOhm[1],
		Length: number(c.LengthMM, c.LengthMM > 0), Ambient: c.AmbientC, Missing: br.Missing,
	}
}

// netOf gives a net's voltage at its first pin, and the spread along it.
func netOf(s *netlist.Solution, net *netlist.Net) netJSON {
	j := netJSON{Name: net.Name, Floating: true, Pins: []pinVoltage{}}
	for _, i := range net.Nodes {
		node := s.Netlist.Nodes[i]
		v := number(s.VoltAt(i))
		if !node.Inner {
			j.Pins = append(j.Pins, pinVoltage{node.Name, v})
		}
		if v == nil {
			continue
		}
		j.Floating = false
		if j.Volts == nil {
			j.Volts, j.Min, j.Max = v, v, v
		}
		j.Min, j.Max = number(min(*j.Min, *v), true), number(max(*j.Max, *v), true)
	}
	return j
}

// partOf lists what flows into a part from its wires, from ground metal and
// from the half it is plugged into; the sum is zero.
func partOf(s *netlist.Solution, p *schematic.Part) partJSON {
	n := s.Netlist
	j := partJSON{ID: id(p.ID), Name: p.Name, Kind: p.Kind, Terminals: []terminal{}, Elements: []elementJSON{}}
	ok := s.Err == nil
	for _, pin := range n.Doc.PinsOf(p) {
		j.Terminals = append(j.Terminals, terminal{pin.Name, number(s.PinAmp(schematic.PinRef{Part: p.ID, Pin: pin.Name}), ok)})
	}
	metal, plugged := 0.0, 0.0
	hasMetal := false
	for _, b := range n.PartBranches(p.ID) {
		br := &n.Branches[b]
		if br.Role == netlist.RoleMate {
			continue
		}
		for _, end := range []struct {
			node int
			in   float64
		}{{br.A, s.Amp[b]}, {br.B, -s.Amp[b]}} {
			if node := n.Nodes[end.node]; node.Inner && node.Part == nil {
				metal, hasMetal = metal+end.in, true
			}
		}
		j.Elements = append(j.Elements, elementJSON{
			Name: elementName(br), Type: string(br.Element.Type), A: n.Nodes[br.A].Name, B: n.Nodes[br.B].Name,
			Amps: number(s.Amp[b], ok), Volts: number(s.Across(b)), Missing: br.Missing,
		})
	}
	for _, pin := range n.Doc.PinsOf(p) {
		node := n.NodeOf(schematic.PinRef{Part: p.ID, Pin: pin.Name})
		for _, b := range n.At(node) {
			br := &n.Branches[b]
			if br.Role != netlist.RoleMate {
				continue
			}
			if br.A == node {
				plugged -= s.Amp[b]
			} else {
				plugged += s.Amp[b]
			}
		}
	}
	if hasMetal {
		j.Terminals = append(j.Terminals, terminal{"#metal", number(metal, ok)})
	}
	if (p.Mate != schematic.ID{}) {
		j.Terminals = append(j.Terminals, terminal{"#plugged", number(plugged, ok)})
	}
	return j
}

func elementName(br *netlist.Branch) string {
	if br.Pin != nil {
		return "pin " + br.Pin.Name + " " + br.Element.Name
	}
	return br.Element.Name
}

func (a *app) printState(st stateJSON) {
	fmt.Fprintf(a.out, "STATE %s (engine %s)\n", st.Name, st.Engine)
	if st.Error != "" {
		fmt.Fprintf(a.out, "  cannot be computed: %s\n\n", st.Error)
		return
	}
	for _, n := range st.Notes {
		fmt.Fprintf(a.out, "  note: %s\n", n)
	}
	if len(st.Chatter) > 0 {
		fmt.Fprintf(a.out, "  chattering: %s\n", strings.Join(st.Chatter, ", "))
	}
	tw := tabwriter.NewWriter(a.out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(tw, "  wire\tfrom\tto\tcurrent\tvolts from\tvolts to\tresistance")
	for _, w := range st.Wires {
		from, to, va, vb := w.A, w.B, w.VoltsA, w.VoltsB
		if w.Amps != nil && *w.Amps < 0 {
			from, to, va, vb = to, from, vb, va
		}
		ohm := "missing: " + strings.Join(w.Missing, ", ")
		if w.Ohm != nil {
			ohm = fmt.Sprintf("%.2f mΩ", *w.Ohm*1000)
		}
		abs := w.Amps
		if abs != nil {
			abs = number(math.Abs(*abs), true)
		}
		fmt.Fprintf(tw, "  %s\t%s\t%s\t%s\t%s\t%s\t%s\n", w.Name, from, to, amps(abs), volts(va), volts(vb), ohm)
	}
	tw.Flush()
	fmt.Fprintf(a.out, "  power given out %.1f W, taken up %.1f W; currents close within %.1g A\n\n", st.Power.Generated, st.Power.Dissipated, st.KCL)
}
