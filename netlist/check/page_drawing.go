package check

import "loomwright/netlist"

// Help about what the drawing says of itself.
var drawingPages = []page{
	{
		rule:    "missing data",
		why:     "A rule that lacks a value gives no verdict; a missing load current makes every wire on its way look better than it is.",
		formula: "List of values that rules ask for and nobody gave. Assumed where nothing is said: air of 30 °C, wires on no segment lying alone.",
		limits:  []string{limitLoaded},
		choices: []string{netlist.WarmingChoice},
		mend:    "Give the value named. Defaults of a kind count as given and show their source in the details.",
		blind:   "Values that are given but wrong.",
	},
	{
		rule:    "default for another voltage",
		why:     "A 12 V relay coil in a 24 V system draws twice its current and burns; a figure worked out for the wrong part hides that.",
		formula: "Default in use, its system voltage and that of the drawing differ by a factor of 1.5 or more.",
		mend:    "Give the value named, from the part itself; or set the system voltage of the drawing right.",
		blind:   "Values that are given but belong to another voltage; parts behind a converter, for which the default may be right: give it as a value then.",
	},
	{
		rule:    "out of scope",
		why:     "A mistake in these circuits hurts people directly; this program knows nothing of their rules.",
		formula: "Words in names, labels and circuits; U > limit of any source, node or system.",
		limits:  []string{limitScope},
		mend:    "Leave these circuits to the vehicle maker's data and a qualified person.",
		blind:   "Circuits that the drawing calls by other names.",
	},
}
