package check

import "loomwright/netlist"

var guardPages = []page{
	{
		rule: "fuse too slow for wire",
		why: "A short far down a long thin wire may draw so little that its fuse takes seconds, or never opens, while the insulation softens. A slow " +
			"fuse of a small rating can be worse than a quick one of a larger.",
		formula: "Current of the short: volts of the batteries over all resistances on the way, wires as hot as their insulation bears for good. " +
			"Opening: the late edge of the published band, straight between its points on double logarithmic paper, beyond the last at the same heat I²t. " +
			"Wire: dT/dt = I²·(β + T)/(K·S)² − loss, the loss such that its ampacity holds its rated temperature, from the temperature its insulation " +
			"bears for good up to the short-circuit temperature within 5 s and 50 K above the class within 6 h. Late or never is an error; " +
			"an overload that lasts longer than the wire bears it is a warning.",
		limits:  []string{limitLoaded},
		choices: []string{netlist.BundleChoice},
		mend: "Take a smaller or quicker fuse that still carries the load, a thicker wire, or a fuse of its own where the wire branches off. The plot of the " +
			"fuse against the wire shows by how much.",
		blind: "Shorts with a resistance of their own, such as chafed strands; heat the insulation takes up, which only helps; real fuses, of which the band is the " +
			"outer bounds; a breaker that resets and heats the wire again; between a fuse's rating and the current at which it must open nothing is promised.",
	},
}
