package check

// Help about grounds.
var groundPages = []page{
	{
		rule: "ground path too resistive",
		why:  "Half of every circuit is ground. A load that lifts its own ground gets less voltage, and everything grounded there sees it.",
		formula: "R ≤ U/I: R from the point where the load's return meets the ground to battery negative, parallel ways counted in, " +
			"I the load's own largest current, U the rise allowed.",
		limits: []string{limitGround, limitGroundStart},
		mend:   "Thicken or shorten the ground wire, clean the stud, add a strap beside the present one.",
		blind:  "The sheet metal between two studs, which counts as without resistance; rust and paint under a ring unless the joint's resistance says so.",
	},
	{
		rule: "ground lifted by others",
		why:  "What a starter or fan sends through a shared ground appears as voltage at every other load there; sensors and electronics suffer first.",
		formula: "U between the load's ground and battery negative in its worst state, where the load's own current alone would keep the limit. " +
			"The formula of the finding shows which pieces make it up.",
		limits: []string{limitGround, limitGroundStart},
		mend:   "Give the strong load a ground wire of its own, or thicken the shared piece that loses most.",
		blind:  "The sheet metal between two studs; short dips such as the first moment of cranking.",
	},
	{
		rule:    "ground joint too resistive",
		why:     "A painted or corroded stud adds milliohms to every load grounded there, and warms up under large currents.",
		formula: "Joint resistance given for the stud ≤ resistance of a clean bond to structure.",
		limits:  []string{limitGroundJoint},
		mend:    "Clean to bare metal, use a toothed washer, tighten, then protect against corrosion; measure again.",
		blind:   "The real joint: the figure is what the drawing says, a default where nobody measured.",
	},
	{
		rule:    "ground strap missing",
		why:     "Without a strap the starter's current returns through throttle cables, gearbox bearings, screens and the ground pins of control units, and burns them.",
		formula: "Is there a way of wires, plugs, splices, studs and main switches from the metal to battery negative?",
		mend:    "Draw the strap, or the battery's second cable, between a stud of this metal and battery negative or a metal that is joined with it.",
		blind:   "Metal that touches by bolts: draw it as a short strap if you count on it. Straps whose wire has no data count as being there.",
	},
	{
		rule:    "single ground strap",
		why:     "Straps corrode and are forgotten after repairs. With a second one the loss of the first shows as a finding of the tester, not as a burnt cable.",
		formula: "A wire is named when no other way of wires leads from the metal to battery negative; I is the most it carries in any state.",
		limits:  []string{limitLoaded},
		mend:    "Add a second strap by another way, for example from the engine to the body beside the engine's cable to the battery.",
		blind:   "Metal that touches by bolts; two straps at one stud fall together when the stud comes loose.",
	},
	{
		rule:    "shares of ground straps",
		why:     "A metal that stands high against battery negative lifts every ground on it; a strap that carries more than its part points to a bad one beside it.",
		formula: "U(metal) − U(battery negative) in each state; share of a strap = I of the strap / Σ I of all that leave the metal, in the state with the largest Σ I.",
		limits:  []string{limitLoaded},
		mend:    "Nothing by itself. Compare the figures with a clamp meter and a voltmeter at the vehicle.",
		blind:   "The sheet metal itself, which counts as without resistance, and the state of old straps.",
	},
}
