package check

// Help about circuits: shorts, sneak paths, missing ways.
var circuitPages = []page{
	{
		rule:    "short across a source",
		why:     "A way from plus to minus without a load draws all the source can give.",
		formula: "Ways from a source's plus to its minus through wires, plugs, joints, fuses, diodes and contacts alone, Σ R of loads = 0.",
		mend:    "Open the way: a wire on the wrong pin, a diode across a coil the wrong way round, a switch that bridges two feeds.",
		blind:   "Faults that come with age: chafed wires, crossed strands.",
	},
	{
		rule:    "diode the wrong way round",
		why:     "The load behind it never works.",
		formula: "Loads that have a circuit only when one diode is turned round.",
		mend:    "Turn the diode: the ring marks the cathode, towards minus.",
		blind:   "Diodes inside units.",
	},
	{
		rule:    "fed while switched off",
		why:     "Lamps glow, relays stay on, engines run on after the key is off: current finds a way through other loads.",
		formula: "I ≥ 0.5 mA and U ≥ 5 % of the system's voltage in a load whose own circuit is open in that state; for indicators the current alone.",
		mend:    "Put a diode into the branch that feeds back, or split the feeds.",
		blind:   "Loads that never have a circuit without others, such as two in series.",
	},
	{
		rule:    "two fuses feed one net",
		why:     "Pulling one fuse does not make the circuit dead, and both together let through more than the wire bears.",
		formula: "Two fuses from the same source whose load sides are joined by wires or closed contacts, without a diode.",
		mend:    "Part the circuits, or use diodes.",
		blind:   "Fuses in parallel on purpose inside a unit.",
	},
	{
		rule:    "load without circuit",
		why:     "The load can never work: a feed or a ground is not drawn.",
		formula: "With all contacts and drivers closed there is no ring through the load and a source.",
		mend:    "Draw the missing wire; tie ground studs to battery negative.",
		blind:   "Feeds that come from another sub-harness: draw a source or a connector for them.",
	},
	{
		rule:    "load never switched on",
		why:     "What no operating state switches on is not assessed: neither its wires nor its fuse see its current.",
		formula: "|I| ≤ 0.1 mA in all operating states.",
		mend:    "Add an operating state, or set the switch or output in one.",
		blind:   "Pins of control units and bus terminators, which are exempt.",
	},
	{
		rule:    "loose wire end",
		why:     "A live loose end touches the body one day.",
		formula: "An end at no pin; a warning where |U| > 1 V against battery negative in some state.",
		mend:    "Connect the end, take the wire away, or insulate it and mark it as parked.",
		blind:   "Caps and heat shrink over the end.",
	},
	{
		rule:    "network cannot be computed",
		why:     "Without currents no rule about currents says anything.",
		formula: "Σ I = 0 at every node (Kirchhoff); a state whose equations do not settle has no figures.",
		mend:    "Draw a source; correct values that cannot be, such as a negative resistance.",
		blind:   "The state itself: nothing in it is assessed.",
	},
}
