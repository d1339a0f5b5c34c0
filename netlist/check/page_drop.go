package check

import "loomwright/netlist"

// dropLimitNames lists the limits of the voltage drop, by kind of load.
func dropLimitNames() []string {
	var out []string
	for _, l := range dropLimits() {
		out = append(out, l.Name)
	}
	return out
}

// Help about lost volts.
var dropPages = []page{
	{
		rule: "voltage drop",
		why:  "Lamps turn dim, pumps and fans slow, relays drop out and control units restart when too much of the voltage stays in wires and contacts.",
		formula: "ΔU(feed) = Σ R·I from the source to the load; ΔU(circuit) = ΔU(feed) + ΔU(return). Each is held against the limit for the kind of load; " +
			"R is that of the warm wire, with crimps, contacts, fuses and drivers. On a regulator the limits shrink with its voltage.",
		limits:  dropLimitNames(),
		choices: []string{netlist.WarmingChoice, dropChoice},
		mend:    "Thicken the wire that loses most, shorten it, or give the load a feed or ground of its own; clean contacts lose less than old ones.",
		blind:   "Corrosion; contacts worse than their kind's figure; drops in the first moment after switching on.",
	},
	{
		rule:    "charging line drop",
		why:     "The battery is charged with what is left: half a volt lost between alternator and battery leaves it half full.",
		formula: "U(B+) − U(battery +) and U(battery −) − U(alternator −), in the state with the largest current of the alternator.",
		limits:  []string{limitCharge, limitChargeGround},
		mend:    "Thicken or shorten the charging line, or the strap from the alternator's case to the battery.",
		blind:   "A regulator that measures at the battery and makes up for the loss.",
	},
	{
		rule:    "voltage too low to work",
		why:     "Below its least voltage a unit resets, a horn stays silent, a relay does not pull in.",
		formula: "U between the pins ≥ lowest working voltage, or pull-in voltage of a coil at rest, in every state that wants it to work.",
		mend:    "Raise the voltage: thicker wires, a stronger battery, fewer loads in that state, a relay near the load.",
		blind:   "Dips shorter than an operating state; coils that are hot and need more voltage than their figure for 20 °C.",
	},
}
