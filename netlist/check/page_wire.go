package check

import "loomwright/netlist"

// Help about wires and what protects them.
var wirePages = []page{
	{
		rule: "wire too thin",
		why: "A conductor that carries more than its insulation bears softens it, first in the middle of a bundle, where nobody looks. " +
			"Bare strands then meet the next wire or the body.",
		formula: "I ≤ I(list, size, class) · √((Tc − Ta)/(Tc − Tlist)) · f(number of loaded wires) · f(altitude); while cranking I ≤ k · S / √t, if that is more. " +
			"I in A, S in mm², T in °C, t in s; Tc is the temperature class of the insulation, Ta the air at the hottest place of the route.",
		limits:  []string{limitLoaded, limitCrank, limitAltitude},
		choices: []string{netlist.BundleChoice, netlist.WarmingChoice},
		mend:    "Take the next larger size, insulation of a higher class, a cooler or less crowded route, or let fewer loads hang on the wire.",
		blind: "Heat from a pipe, manifold or lamp nearby unless the segment has its own air temperature; wires that lie together but are on no " +
			"common segment; currents of states nobody drew; starting currents of lamps and motors.",
	},
	{
		rule: "no fuse between source and wire",
		why:  "A battery gives thousands of amperes into a short circuit. Without a fuse the wire itself is the weakest piece and burns along its whole length.",
		formula: "Length of wire from the source's terminal to the far end of the wire, on the shortest way that meets no fuse, against the longest " +
			"length allowed; all of it in a sleeve has a limit of its own.",
		limits: []string{limitUnfused, limitUnfusedTube},
		mend:   "Put a fuse, fusible link or breaker near the source, or shorten the wire before it and lay it in a sleeve.",
		blind:  "How the wire is laid and fastened; a fuse inside a unit or battery terminal that is not drawn.",
	},
	{
		rule:    "load without fuse",
		why:     "A fault inside the load, or a chafed wire to it, then meets nothing that opens the circuit.",
		formula: "From each pin of the load back to every source: is there a way without a fuse, link or breaker, with contacts in any position?",
		mend:    "Feed the load through a fuse that its thinnest wire bears.",
		blind:   "A fuse built into the load or into a unit that is drawn without it.",
	},
	{
		rule: "fuse too large for wire",
		why:  "The fuse protects the wire, not the load. A wire that bears less than its fuse lets through can glow for minutes while the fuse holds.",
		formula: "Rating of the fuses that feed the wire ≤ ampacity of the wire; the next standard size up to 150 % is tolerated with a warning. " +
			"Several fuses on one side of the wire add up, of fuses in a row the smallest counts. A piece no longer than a source may have before its fuse, " +
			"with a fuse at its end that it bears, is left out.",
		limits:  []string{limitLoaded, limitAltitude, limitFuseShare, limitUnfused},
		choices: []string{netlist.BundleChoice},
		mend: "Put a fuse of its own where the branch leaves the feed, take a smaller fuse, if it still carries the load, or a thicker wire from the fuse to the " +
			"point where the circuit branches.",
		blind: "How quickly the fuse opens, which a rule of its own looks at; breakers and links inside units.",
	},
	{
		rule: "fuse overloaded",
		why:  "A fuse that works near its rating ages and opens one day without a fault; above the rating it opens sooner or later.",
		formula: "I > rating is an error; I > share · rating for good is a warning. Above 25 °C the rating of blade fuses shrinks with the air temperature " +
			"of the drawing. Cranking counts only against the full rating.",
		limits: []string{limitFuseShare},
		mend:   "Take the next larger rating that all wires behind the fuse bear, or share the loads between two fuses.",
		blind:  "Starting currents of lamps and motors; heat from neighbours in a fuse box.",
	},
}
