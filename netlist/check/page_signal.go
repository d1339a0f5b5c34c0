package check

// Help about sensors, screens and buses.
var signalPages = []page{
	{
		rule:    "sensor ground shared",
		why:     "Volts along a ground that carries power currents add to the sensor's signal: the unit reads a wrong temperature, pressure or position.",
		formula: "Wiring of a sensor ground pin, followed through wires, splices, connectors and studs: does a power ground, or the return of another load, meet it?",
		mend:    "Lead all sensor grounds to the sensor ground pins of the unit and nowhere else.",
		blind:   "Sensors grounded through their thread unless the ground pin is drawn wired.",
	},
	{
		rule:    "sensor supply off",
		why:     "A sensor with electronics gives its signal as a part of its supply: outside its range it is silent or wrong.",
		formula: "low ≤ U(supply pin) − U(ground pin) ≤ high in every state with the engine at idle or running.",
		limits:  []string{limitSensorLow, limitSensorHigh},
		mend:    "Wire the sensor to the unit's sensor supply and sensor ground; for sensors made for 12 V set the limits of the drawing.",
		blind:   "What each sensor really bears: its data sheet says.",
	},
	{
		rule:    "ground loop",
		why:     "A sensor ground or screen with a second way to ground carries part of the currents of other loads.",
		formula: "A way from a sensor ground or screen pin to other ground points that does not pass through the unit.",
		mend:    "Cut the second way: connect at the unit alone.",
		blind:   "Loops through the metal of a sensor screwed into the engine.",
	},
	{
		rule:    "screen not grounded at one end",
		why:     "A screen grounded nowhere picks up what it should keep out; grounded at both ends it carries current itself.",
		formula: "Number of places where the drain wires of one screen, followed through connectors, meet ground = 1.",
		mend:    "Connect the drain wire at the unit, leave and insulate it at the sensor.",
		blind:   "Screens against high frequencies that their maker wants grounded at both ends; screens without a drain wire in the drawing.",
	},
	{
		rule:    "bus without its two ends",
		why:     "Without a resistor at either end, pulses come back from the open ends and messages are lost now and then.",
		formula: "Two resistors between H and L, and R(H–L) between the least and the most two ends of 100 to 130 Ω give side by side.",
		limits:  []string{limitBusLow, limitBusHigh},
		mend:    "Put a 120 Ω resistor at each of the two ends farthest apart, none elsewhere; measure 60 Ω with the battery off.",
		blind:   "Resistors inside units: draw them as parts; where along the cable the resistors sit.",
	},
	{
		rule:    "bus not twisted",
		why:     "Wires that run apart pick up different disturbances, which the receivers then cannot take off each other.",
		formula: "Length of bus wire that shares no twist with a wire of the other line ≤ limit.",
		limits:  []string{limitBusUntwisted},
		mend:    "Twist the two wires together and leave only short ends at connectors and splices.",
		blind:   "The lay of the twist and how long stubs are together.",
	},
	{
		rule:    "sensor ground lifted",
		why:     "A unit that reads 50 mV too much from a temperature or pressure sensor sets the wrong mixture or boost.",
		formula: "|U(ground pin of the sensor) − U(ground inside the unit)| ≤ ratio · span; span is the voltage of the unit's sensor supply.",
		limits:  []string{limitSensorLift},
		mend:    "Lead the sensor's ground to the sensor ground pin of the unit that reads it, and keep other currents off that wire.",
		blind:   "Units that measure against a pin of their own; sensors grounded by their thread; ripple and spikes.",
	},
	{
		rule:    "pull-up missing",
		why:     "Without a pull-up the signal stays at zero, or floats: no engine speed, or a coolant temperature that never changes.",
		formula: "Is there a resistor, or another load, from the net of the signal to a point that is not ground?",
		mend:    "Choose the input's role with a pull-up if the unit has one, or draw a resistor of about 1 to 4.7 kΩ (common practice) to the sensor supply.",
		blind:   "Pull-ups inside units that are drawn as plain boxes; the value of the resistor, which the unit's tables for a sensor expect.",
	},
	{
		rule:    "pair neither twisted nor screened",
		why:     "A coil sensor's wires that run apart pick up ignition and alternator: the engine misfires at speed, or a wheel seems to turn.",
		formula: "Length of a wire of the pair that shares neither twist nor screen with its partner ≤ limit; likewise a signal that should be screened.",
		limits:  []string{limitPair},
		mend:    "Twist the two wires with each other, or put both under one screen grounded at the unit.",
		blind:   "Sensors whose kind does not say that their wires are a pair.",
	},
}
