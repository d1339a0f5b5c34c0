package check

// Help about contacts, relays, coils and drivers.
var switchPages = []page{
	{
		rule: "contact or driver overloaded",
		why:  "Contacts above their rating heat up and weld; a driver above its limit switches itself off or is destroyed; terminals discolour and loosen.",
		formula: "I ≤ rating, for contacts, drivers, diodes and terminals in the state with the largest current; U·I ≤ rated power for resistors. " +
			"A terminal without a rating counts by its width.",
		limits: []string{limitLoaded},
		mend:   "Let a relay switch the load, share the current between cavities, or take a contact of a larger width.",
		blind:  "Starting currents; terminals crimped badly; several contacts that do not share evenly.",
	},
	{
		rule:    "switch too small for its load",
		why:     "Cold lamps and starting motors draw many times their current and weld the contacts; coils burn them with an arc when switched off.",
		formula: "Rating ≥ Σ I · factor for the kind of load: at 12 V lamp 5, motor 2, coil 2, all else 1; at 24 V lamp 8, motor 3, coil 4, resistive 2.",
		limits:  []string{limitLoaded},
		mend:    "Let the switch work a relay, or take one with a larger rating.",
		blind:   "Switches rated for lamps or motors by their maker, where the rating may be taken as it is; LED lamps count as lamps.",
	},
	{
		rule:    "coil of short duty held on",
		why:     "Starter solenoids and other coils for short times burn out when they stay on.",
		formula: "Coil of intermittent duty with more than a quarter of the system's voltage across it, in any state but cranking.",
		mend:    "Use a solenoid for continuous duty, or cut its feed after the action.",
		blind:   "How long a state really lasts.",
	},
	{
		rule:    "coil without suppression",
		why:     "A coil switched off throws up a hundred volts and more: it kills drivers and disturbs everything near the wire.",
		formula: "Relay coil whose pin a unit's output switches, with neither diode, resistor nor suppression diode between the same two nets.",
		mend:    "Use a relay with a diode (its cathode, or 86, at plus) or a resistor of about 680 Ω (from memory), or put one beside the coil.",
		blind:   "Suppression inside a unit's output; diodes drawn the wrong way round, which show as a short circuit.",
	},
	{
		rule:    "relay chatters",
		why:     "The contacts hammer, burn and weld within minutes.",
		formula: "Operating point in which the coil is above pull-in with its contacts at rest and below drop-out with them moved.",
		mend:    "Feed the coil from a point its own contacts do not switch.",
		blind:   "Contact travel times: where two relays race, which one wins is not told.",
	},
	{
		rule:    "relay too small for its lamps",
		why:     "The rush into cold filaments welds the contact: the headlamps no longer go off.",
		formula: "Σ I(filament lamps through the contact, steady) ≤ ratio · rating.",
		limits:  []string{limitRelayLamp},
		mend:    "Use one relay for each side, or a relay rated for lamps; then set the limit.",
		blind:   "Motors and capacitors, which rush too; data sheets that allow more or less lamps.",
	},
	{
		rule:    "indicator badly fed",
		why:     "An LED with too small a resistor dies within weeks; the wrong way round it stays dark.",
		formula: "I = (U − U(LED)) / R ≤ limit in every state; U(plus) > U(minus) in some state.",
		limits:  []string{limitLED},
		mend:    "Take the next larger resistor of the E12 series (IEC 60063, from memory), or swap the two wires.",
		blind:   "Spikes on the supply; how bright the LED is.",
	},
}
