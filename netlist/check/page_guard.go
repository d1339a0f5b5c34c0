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
		limits:  []string{limitLoaded, limitUnfused},
		choices: []string{netlist.BundleChoice},
		mend: "Take a smaller or quicker fuse that still carries the load, a thicker wire, or a fuse of its own where the wire branches off. The plot of the " +
			"fuse against the wire shows by how much.",
		blind: "Shorts with a resistance of their own, such as chafed strands; heat the insulation takes up, which only helps; real fuses, of which the band is the " +
			"outer bounds; a breaker that resets and heats the wire again; between a fuse's rating and the current at which it must open nothing is promised.",
	},
	{
		rule:    "short beyond fuse",
		why:     "A fuse asked to break more than it is made for can burst, or keep an arc that burns on behind a fuse that looks blown.",
		formula: "Volts of the batteries over all resistances up to the fuse, copper at 20 °C, and the limits of all alternators added ≤ breaking capacity; volts ≤ rated volts of the family.",
		mend: "Take a fuse of a family with more breaking capacity, put a bolted fuse before it, or let more wire lie between it and the battery. Give the battery's own inner " +
			"resistance or cold cranking current: the usual value is that of a strong one.",
		blind: "Large cells that give more than their inner resistance at rest tells; what the holder stands.",
	},
	{
		rule:    "fusible link too thick for wire",
		why:     "A link works by being the thinnest piece of copper in its circuit. Where it is not, the wire is the link.",
		formula: "Area of the wire ≥ 92^(8/39) · area of the link = 2.53 · area of the link: four gauge numbers. Two per cent are left for rounded metric sizes.",
		mend:    "Take a thinner link, a thicker wire, or a fuse instead of the link.",
		blind:   "The length of the link, which is usually 150 mm and at most 230 mm; what its maker says of its melting current.",
	},
	{
		rule:    "fuse before fuse opens as well",
		why:     "Where the farther fuse opens with the nearer one, a fault in one lamp stops the engine.",
		formula: "Latest time of the nearer fuse < earliest time of the farther one, at every current of a dead short, from the far end of the wires behind it with hot copper to right behind it with cold copper.",
		mend:    "Put more than one step between two fuses in a row, or a quicker family behind a slower one.",
		blind:   "What else flows through the farther fuse meanwhile; the bands are outer bounds, real fuses of one make part better.",
	},
	{
		rule: "fuse worn by starting",
		why:  "Each surge stretches the element of the fuse a little. It opens after months, on a day nothing is wrong.",
		formula: "i(t) = steady current + Σ surges · e^(−t/τ), held back by the feed: ∫(i² − steady²) dt ≤ share · melting I²t; share by the number of starts: 48 % for 100, 38 % for 1 000, " +
			"29 % for 10 000, 22 % for 100 000. Filaments start at cold_ohm or a tenth of hot, motors at their stall current.",
		limits: []string{limitLampStart, limitMotorStart, limitStarts},
		mend:   "Take the next rating that the wires bear, share the loads between two fuses, or start them one after the other.",
		blind: "Units that charge capacitors and do not say with what heat; motors that start under load; motors of unknown stall current pass only if twelve times their " +
			"running current would.",
	},
}
