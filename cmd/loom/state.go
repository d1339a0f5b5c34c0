package main

import (
	"slices"
	"strings"

	"loomwright/netlist"
	"loomwright/schematic"
)

// stateJSON is one operating state computed. Amps and volts are null where
// they are not known.
type stateJSON struct {
	ID       string        `json:"id"`
	Name     string        `json:"name"`
	Engine   string        `json:"engine"`
	Error    string        `json:"error,omitempty"`
	Wires    []wireJSON    `json:"wires"`
	Contacts []contactJSON `json:"contacts"`
	Nets     []netJSON     `json:"nets"`
	Parts    []partJSON    `json:"parts"`
	KCL      float64       `json:"kcl_residual_amps"`
	Power    powerJSON     `json:"power"`
	Limiting []string      `json:"limiting"`
	Starved  []string      `json:"starved"`
	Over     []string      `json:"over_limit"`
	Reversed []string      `json:"reversed"`
	Unsteady []string      `json:"unsteady"`
	Chatter  []string      `json:"chattering"`
	Loop     string        `json:"chatter_loop,omitempty"`
	Racing   []string      `json:"racing"`
	Notes    []string      `json:"notes"`
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
	Temp    *float64 `json:"temperature_c"`
	Formula string   `json:"formula,omitempty"`
	Source  string   `json:"source,omitempty"`
	Missing []string `json:"missing,omitempty"`
}

// contactJSON is a pair of contacts of a plugged connector.
type contactJSON struct {
	A       string   `json:"a"`
	B       string   `json:"b"`
	Amps    *float64 `json:"amps"`
	Volts   *float64 `json:"volts"`
	Ohm     *float64 `json:"ohm"`
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

// pinVoltage is the voltage of a pin, an inner point of a part ("A1#supply"), a
// loose end or ground metal.
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
	Name    string              `json:"name"`
	Pin     string              `json:"pin,omitempty"`
	Type    string              `json:"type"`
	A       string              `json:"a"`
	B       string              `json:"b"`
	Args    map[string]*float64 `json:"args"`
	Ohm     *float64            `json:"ohm,omitempty"`
	Inner   *float64            `json:"inner_volts,omitempty"`
	Formula string              `json:"formula,omitempty"`
	Inrush  *float64            `json:"inrush_amps,omitempty"`
	Closed  bool                `json:"closed"`
	Amps    *float64            `json:"amps"`
	Volts   *float64            `json:"volts"`
	Feed    string              `json:"feed,omitempty"`
	FeedAmp *float64            `json:"feed_amps,omitempty"`
	Missing []string            `json:"missing,omitempty"`
}

type powerJSON struct {
	Generated  float64 `json:"generated_w"`
	Dissipated float64 `json:"dissipated_w"`
	Imbalance  float64 `json:"imbalance_w"`
}

func stateOf(s *netlist.Solution) stateJSON {
	st := stateJSON{
		ID: id(s.State.ID), Name: s.State.Name, Engine: string(s.State.Engine),
		Wires: []wireJSON{}, Contacts: []contactJSON{}, Nets: []netJSON{}, Parts: []partJSON{},
		KCL:      s.ResidualAmp,
		Power:    powerJSON{s.GeneratedWatt, s.DissipatedWatt, s.ImbalanceWatt},
		Limiting: s.Netlist.Names(s.Limiting), Starved: s.Netlist.Names(s.Starved), Over: s.Netlist.Names(s.Over),
		Reversed: s.Netlist.Names(s.Reversed), Unsteady: s.Netlist.Names(s.Unsteady),
		Chatter: append([]string{}, s.Chattering...), Notes: append([]string{}, s.Notes...),
		Loop: s.ChatterLoop, Racing: append([]string{}, s.Racing...),
	}
	if st.Engine == "" {
		st.Engine = string(schematic.EngineOff)
	}
	if s.Err != nil {
		st.Error = s.Err.Error()
	}
	d := s.Netlist.Doc
	for _, w := range slices.SortedFunc(d.Wires(), schematic.CompareItems) {
		st.Wires = append(st.Wires, wireOf(s, w))
	}
	for i := range s.Netlist.Branches {
		if s.Netlist.Branches[i].Role == netlist.RoleMate {
			st.Contacts = append(st.Contacts, contactOf(s, i))
		}
	}
	for i := range s.Netlist.Nets {
		st.Nets = append(st.Nets, netOf(s, &s.Netlist.Nets[i]))
	}
	slices.SortStableFunc(st.Nets, func(a, b netJSON) int { return schematic.CompareNames(a.Name, b.Name) })
	for _, p := range slices.SortedFunc(d.Parts(), schematic.CompareItems) {
		st.Parts = append(st.Parts, partOf(s, p))
	}
	return st
}

func wireOf(s *netlist.Solution, w *schematic.Wire) wireJSON {
	i := s.Netlist.WireBranch(w.ID)
	br := &s.Netlist.Branches[i]
	c := s.ConductorOf(w.ID)
	return wireJSON{
		ID: id(w.ID), Name: w.Name, A: s.Netlist.Nodes[br.A].Name, B: s.Netlist.Nodes[br.B].Name,
		Amps:   number(s.WireAmp(w.ID)),
		VoltsA: number(s.VoltAt(br.A)), VoltsB: number(s.VoltAt(br.B)),
		Ohm: number(s.OhmOf(i)), WireOhm: number(c.WireOhm, br.OhmKnown), Temp: number(s.WireTempC(w.ID)),
		JointA: c.JointOhm[0], JointB: c.JointOhm[1],
		Length: number(c.LengthMM, c.LengthMM > 0), Ambient: c.AmbientC,
		Formula: c.Formula, Source: c.Source.String(), Missing: br.Missing,
	}
}

func contactOf(s *netlist.Solution, i int) contactJSON {
	br := &s.Netlist.Branches[i]
	return contactJSON{
		A: s.Netlist.Nodes[br.A].Name, B: s.Netlist.Nodes[br.B].Name,
		Amps: number(s.Amp[i], s.Err == nil), Volts: number(s.Across(i)),
		Ohm: number(br.Ohm, br.OhmKnown), Missing: br.Missing,
	}
}

// netOf gives a net's voltage at its first pin, and the spread along it.
func netOf(s *netlist.Solution, net *netlist.Net) netJSON {
	j := netJSON{Name: net.Name, Floating: true, Pins: []pinVoltage{}}
	for _, i := range net.Nodes {
		v := number(s.VoltAt(i))
		j.Pins = append(j.Pins, pinVoltage{s.Netlist.Nodes[i].Name, v})
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
	plugged := 0.0
	for _, pin := range n.Doc.PinsOf(p) {
		ref := schematic.PinRef{Part: p.ID, Pin: pin.Name}
		j.Terminals = append(j.Terminals, terminal{pin.Name, number(s.PinAmp(ref), ok)})
		node := n.NodeOf(ref)
		for _, b := range n.At(node) {
			if n.Branches[b].Role == netlist.RoleMate {
				plugged -= out(s, b, node)
			}
		}
	}
	metal, onMetal := 0.0, false
	for _, b := range n.PartBranches(p.ID) {
		br := &n.Branches[b]
		if br.Role == netlist.RoleMate {
			continue
		}
		for _, node := range []int{br.A, br.B} {
			if n.Nodes[node].Ground != "" {
				metal, onMetal = metal+out(s, b, node), true
			}
		}
		j.Elements = append(j.Elements, elementOf(s, b))
	}
	if onMetal {
		j.Terminals = append(j.Terminals, terminal{"#metal", number(metal, ok)})
	}
	if (p.Mate != schematic.ID{}) {
		j.Terminals = append(j.Terminals, terminal{"#plugged", number(plugged, ok)})
	}
	return j
}

// out is the current that leaves a node through a branch that ends there.
func out(s *netlist.Solution, branch, node int) float64 {
	if s.Netlist.Branches[branch].A == node {
		return s.Amp[branch]
	}
	return -s.Amp[branch]
}

func elementOf(s *netlist.Solution, i int) elementJSON {
	n := s.Netlist
	br := &n.Branches[i]
	e := elementJSON{
		Name: br.Element.Name, Type: string(br.Element.Type), A: n.Nodes[br.A].Name, B: n.Nodes[br.B].Name,
		Args: map[string]*float64{}, Closed: s.Closed[i], Missing: br.Missing,
		Amps: number(s.Amp[i], s.Err == nil), Volts: number(s.Across(i)),
	}
	if br.Pin != nil {
		e.Pin = br.Pin.Name
	}
	for arg := range br.Element.Args {
		e.Args[arg] = known(br.Value(arg))
	}
	if c := br.Cells(); br.Element.Type == schematic.ElemBattery && len(br.Missing) == 0 {
		e.Ohm, e.Inner = number(c.Ohm, true), number(c.Volt, true)
		e.Formula = strings.Join(slices.DeleteFunc([]string{c.VoltFormula, c.OhmFormula}, func(s string) bool { return s == "" }), "; ")
	}
	if br.Element.Type == schematic.ElemFuse {
		e.Ohm = number(s.OhmOf(i))
	}
	e.Inrush = number(s.InrushAmp(i))
	if br.Feed >= 0 {
		e.Feed = n.Nodes[br.Feed].Name
		amp, drawn := s.FeedAmp[i]
		e.FeedAmp = number(amp, drawn && s.Err == nil)
	}
	return e
}
