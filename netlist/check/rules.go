package check

// rules is every rule in the order they run.
var rules = []Rule{
	wireThin,
	unfused,
	loadUnfused,
	fuseLarge,
	fuseLoad,
	dropRule,
	charging,
	groundPath,
	groundShared,
	groundJointBad,
	ratingRule,
	supplyLow,
	supplyLimit,
	polarity,
	relayChatter,
	unsolved,
	shorted,
	diodeReversed,
	sneakFed,
	twoFuses,
	groundLoop,
	floating,
	loose,
	neverOn, // after floating
	missing,
	scope,
	keyOff,
	supplyBudget,
}
