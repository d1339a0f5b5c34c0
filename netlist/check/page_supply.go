package check

// Help about batteries, alternators and regulators.
var supplyPages = []page{
	{
		rule:    "supply at its limit",
		why:     "Beyond the limit of an alternator the battery gives the rest and empties; beyond that of a sensor supply all its sensors read wrong.",
		formula: "The source gives its limit and its voltage falls below its own figure.",
		mend:    "Ask for less in that state, or take a larger alternator; give strong sensors a supply of their own.",
		blind:   "Limits nobody gave: such a source counts as able to give any current.",
	},
	{
		rule:    "alternator budget",
		why:     "A battery that gives current while one drives is empty after some hours, usually on a wet night.",
		formula: "Σ I(loads) in each state with the engine turning ≤ Σ output of the alternators at idle, or hot; without a figure a share of the rating is taken.",
		limits:  []string{limitEmptying, limitIdleShare, limitHotShare},
		mend:    "Take an alternator with more output at idle, or have fewer loads on at idle.",
		blind:   "How long a state lasts and how often loads switch: a state's duty figures are all it knows.",
	},
	{
		rule:    "key-off current",
		why:     "A parked vehicle that draws too much does not start after some days, and a battery left half empty for long ages.",
		formula: "I of all batteries at rest ≤ limit; I of one battery into another ≤ limit; days until half of the charge is gone = 0.5 · C / (24 · I), C in Ah, I in A.",
		limits:  []string{limitKeyOff},
		mend:    "Feed what need not stay awake through the ignition switch; look for a lamp, relay or unit left on permanent supply.",
		blind:   "Units that fall asleep later or never; leakage over dirt; the battery's own discharge.",
	},
	{
		rule:    "fed the wrong way round",
		why:     "Electronics fed backwards are destroyed or blow their fuse.",
		formula: "U(plus pin) < U(minus pin) of a load with a polarity, in any operating state.",
		mend:    "Swap the two wires.",
		blind:   "Units whose inside is not drawn; protection diodes inside a load.",
	},
	{
		rule: "voltage while cranking",
		why:  "The battery gives its least voltage while the starter turns: a control unit that resets then, or a coil that has no supply, and the engine does not start.",
		formula: "U(unit) = U(supply) − U(ground) inside the unit, and U(coil) = U(supply of the coil) − U(battery negative), each ≥ limit in every state " +
			"in which the engine is cranked and the starter draws current.",
		limits: []string{limitCrankUnit, limitCrankCoil},
		mend:   "Feed unit and coils from terminal 15, which stays live in start, not from 75; thicken their feed; give the starter a stronger battery or cable.",
		blind:  "The first milliseconds, in which the starter stands still and draws most; cold, in which a battery's resistance doubles: give the battery its temperature.",
	},
}
