package check

import (
	"loomwright/calc/tables"
	"loomwright/netlist"
	"loomwright/schematic"
)

// dropRow says what a kind of load may lose: on the feed alone, and on feed and
// return together.
type dropRow struct {
	name, title   string          // the title with its article: "a lamp"
	line, circuit tables.DropKind // 0: no limit of its own
}

var dropRows = []dropRow{
	{"small_lamp", "a lamp up to 15 W", tables.SmallLampLine, tables.LampCircuit},
	{"lamp", "a lamp above 15 W", tables.LampLine, tables.LampCircuit},
	{"motor", "a motor", tables.PathInvestigate, tables.PathFault},
	{"heater", "a heater", 0, tables.OtherCircuit},
	{"solenoid", "a valve, injector or horn", tables.ControlLine, tables.PathFault},
	{"coil", "a relay or ignition coil", tables.ControlLine, tables.PathFault},
	{"sensor", "a sensor on 12 V", 0, tables.VitalCircuit},
	{"electronics", "electronics", 0, tables.VitalCircuit},
	{"indicator", "an indicator", 0, tables.OtherCircuit},
	{"starter", "a starter", tables.StarterPositive, tables.StarterTotal},
	{"starter_control", "the winding of the starter's switch", tables.StarterControlLine, tables.StarterControlCircuit},
	{"other", "any other load", 0, tables.OtherCircuit},
}

func (d dropRow) lineLimit() string    { return "drop_" + d.name + "_line_volt" }
func (d dropRow) circuitLimit() string { return "drop_" + d.name + "_volt" }

func dropLimits() []Limit {
	var out []Limit
	for _, d := range dropRows {
		if d.line != 0 {
			out = append(out, Limit{Name: d.lineLimit(), Title: "drop on the feed of " + d.title, Unit: "V", value: drop(d.line)})
		}
		out = append(out, Limit{Name: d.circuitLimit(), Title: "drop in the whole circuit of " + d.title, Unit: "V", value: drop(d.circuit)})
	}
	return out
}

// smallLampWatt parts the two lamp limits, as their source does.
const smallLampWatt = 15

// dropRowOf returns the limits for a load; false for what belongs to a source.
func dropRowOf(n *netlist.Netlist, br *netlist.Branch) (dropRow, bool) {
	name := br.Element.Load
	switch {
	case name == "charging":
		return dropRow{}, false
	case name == "lamp":
		watt := br.Value("watt")
		if v, ok := watt.Get(); ok && v <= smallLampWatt {
			name = "small_lamp"
		}
	case name == "solenoid" && isStarter(n, br.Part):
		name = "starter_control"
	}
	for _, d := range dropRows {
		if d.name == name {
			return d, true
		}
	}
	return dropRows[len(dropRows)-1], true
}

// isStarter reports whether a part contains a starter motor.
func isStarter(n *netlist.Netlist, p *schematic.Part) bool {
	for _, i := range n.PartBranches(p.ID) {
		if n.Branches[i].Element.Load == "starter" {
			return true
		}
	}
	return false
}
