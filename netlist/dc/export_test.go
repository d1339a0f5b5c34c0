package dc

// Values returns the law g·(v-emf) + inj of an element that is no device, for tests.
func (n *Network) Values(e Element) (siemens, emf, amp float64) { return n.g[e], n.emf[e], n.inj[e] }

// Ends returns the nodes of e, or NoNode twice if there is no such element, for tests.
func (n *Network) Ends(e Element) (a, b Node) {
	if !n.has(e) {
		return NoNode, NoNode
	}
	return n.a[e], n.b[e]
}
