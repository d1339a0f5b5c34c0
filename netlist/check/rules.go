package check

// rules is every rule in the order they run.
var rules = []Rule{
	wireThin,
	relayChatter,
}
