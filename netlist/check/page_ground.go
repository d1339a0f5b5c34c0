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
}
