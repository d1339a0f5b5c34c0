package dc

// Values returns the law g·(v-emf) + inj of an element that is no device, for tests.
func (n *Network) Values(e Element) (siemens, emf, amp float64) { return n.g[e], n.emf[e], n.inj[e] }
