package check

// Help about connectors and wire colours.
var connectorPages = []page{
	{
		rule:    "connector halves do not match",
		why:     "A contact without a counterpart leads nowhere; two pins or two widths do not plug, or force the housing.",
		formula: "Both halves have the same cavity names, contacts of one width, pins on one side and sockets on the other.",
		mend:    "Give both halves the same cavities; choose plug and receptacle of one family.",
		blind:   "Coding, latches and colours of housings.",
	},
	{
		rule:    "cavity badly filled",
		why:     "Two wires in one crimp or seal pull out and let water in; a wire of the wrong size is held badly.",
		formula: "One wire in a cavity; least ≤ S ≤ most for the width of the contact, S in mm² (table from memory, low confidence).",
		mend:    "Join wires in a splice outside the housing; choose the contact for the wire's size.",
		blind:   "The range of your contact: its data sheet goes before the table.",
	},
	{
		rule:    "open cavity in sealed housing",
		why:     "Water comes in through the hole and creeps along the contacts.",
		formula: "Cavity of a sealed housing with no wire, in a housing without plugs.",
		mend:    "Put plugs into unused cavities and write them down at the housing.",
		blind:   "Cavities that are not drawn.",
	},
	{
		rule:    "same colour twice in a connector",
		why:     "At the bench the two wires get swapped and nobody sees it.",
		formula: "Two wires of one base colour and tracer in one connector, on different nets and for different purposes.",
		mend:    "Change a tracer, or mark the ends.",
		blind:   "Wires marked by sleeves or numbers.",
	},
	{
		rule:    "circuit in several colours",
		why:     "A circuit that changes colour at a splice cannot be followed by eye.",
		formula: "Wires with one circuit name have one base colour.",
		mend:    "Give the wires one base colour, or the branches circuit names of their own.",
		blind:   "Wires without circuit name or colour.",
	},
	{
		rule:    "wire without colour",
		why:     "A wire without a colour can neither be ordered nor found.",
		formula: "Count of wires without a colour.",
		mend:    "Give every wire a colour.",
		blind:   "Which colours you have on the shelf.",
	},
	{
		rule:    "seal does not fit wire",
		why:     "Water creeps in along a wire whose seal is loose; a torn seal leaks as well, and the contacts rot unseen.",
		formula: "least ≤ outside diameter of the wire ≤ most, the range of the housing's wire seals; the diameter is that of family and size.",
		mend:    "Take seals for the wire's diameter, or a wire with another wall; write the range of the seals down at the housing.",
		blind:   "The real diameter: makers stay below the largest the standard allows. Seals that differ from cavity to cavity.",
	},
	{
		rule:    "circuit in several sizes",
		why:     "The thin piece of a circuit is taken for the thick one, or bears less than the fuse of the thick one lets through.",
		formula: "Wires with one circuit name have one size.",
		mend:    "Give the wires one size, or the branches circuit names of their own.",
		blind:   "Wires without circuit name or size.",
	},
	{
		rule:    "designation given twice",
		why:     "Two parts of one name get mixed up at the bench: the wrong wire is cut, the wrong fuse pulled.",
		formula: "Count of parts, and of wires, with one designation = 1.",
		mend:    "Rename one of them, or number all anew.",
		blind:   "Names that differ in nothing but a letter.",
	},
}
