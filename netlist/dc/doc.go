// Package dc finds the steady voltages and currents of a direct-current network with many nodes.
//
// Start with [New], which makes a [Network] of numbered nodes. Add elements to it, name the reference node,
// and call [Network.Solve] with a [Solution] to fill. Values may be changed afterwards, elements opened and closed
// again; the next Solve then redoes only the part of the work the change reaches.
//
// # Units and signs
//
// Volts, amperes, ohms, siemens and watts throughout. Every element has two ends, a and b. Its voltage is V(a)-V(b),
// its current flows from a through the element to b, and its power is their product: positive where the element takes
// power up, negative where it gives power out.
//
// # Method
//
// Nodal analysis. Each node but the reference is eliminated in turn by turning the star of conductances around it
// into a mesh between its neighbours (Rosen 1924, "A new network theorem"), which is the LDLᵀ factorisation of the
// conductance matrix without a single subtraction: pivots are sums of conductances, as in the algorithm of Grassmann,
// Taksar and Heyman (1985). That keeps nine digits where a 1 MS link and a 1 nS leak meet at one node, and makes a
// pivot exactly zero just where a part of the network has no path to the reference.
//
// The order of elimination takes loose ends first and then goes by approximate minimum degree (Amestoy, Davis, Duff
// 1996), so a tree costs time in proportion to its nodes. When one conductance changes, only the columns on the path
// from it to the root of the elimination tree are computed again, and of the currents the sources push only those on
// the path from the source. All voltages and currents then follow in two sweeps over memory. Whatever is computed again
// goes through the same arithmetic in the same order as in a solve from scratch: the result equals that to the last
// bit, after any sequence of changes.
//
// Each voltage is found, and kept, as its small difference from that of the stiffest neighbour, in twice the digits of
// a float64, so that a current is right to about 14 digits of the largest one also through nanoohms. Where rounding
// leaves more, see Trust, up to three steps of iterative refinement follow.
//
// A network with devices (elements whose current is a curve over voltage) is solved by Newton's method with a line
// search on the same factorisation. Every solve ends after a bounded number of steps.
//
// # Cost
//
// Milliseconds on one core of a rented server, from scratch with all elements added, and after one resistance of
// a solved network has changed, everywhere solved again; in brackets how many times less that is:
//
//	nodes     1 000               10 000              100 000
//	chain     0.20   0.024  (9)   2.4    0.20  (12)   20    2.1  (10)
//	ring      0.57   0.029 (20)   4.2    0.25  (17)   26    2.6  (10)
//	star      0.18   0.012 (15)   2.5    0.12  (20)   20    1.9  (11)
//	tree      0.20   0.007 (29)   2.6    0.068 (37)   26    0.77 (33)
//	harness   0.44   0.011 (42)   4.6    0.091 (51)   59    1.1  (53)
//	grid      2.2    0.080 (27)   21     3.1    (7)   330   88    (4)
//
// Trees, rings and harnesses (two trees with loads between their twigs) grow with the nodes; the entries of a grid's
// factor grow faster. After one change a solution still names the voltage of every node and the current of every
// element, which takes one run over each and bounds what reuse can save; on a chain half of the columns lie on the
// path, on a grid the densest ones do. A single question about two nodes ([Network.ResistanceBetween]) takes some
// microseconds. Dense Cholesky of a general library takes 5.9 ms for a random network of 500 nodes and 290 ms for
// 2 000, this package 0.9 and 15.
//
// # Questions to a network
//
// [Network.SolveNear] solves after a small change from where the devices stood. [Network.Variations] solves for many
// single changes in turn, and [Network.ResistanceBetween] measures between two nodes; both use the factor there is and
// leave the network as it was.
//
// # Trust
//
// Each Solve, whether from scratch or after a change, sums the currents it reports at every node and the powers over
// all elements, and reports the worst node and the power balance. Currents are from Ohm's law or the law of the device
// over the voltages reported, so that the sums prove both. At every node the sum must be below [RelativeTolerance] of
// the currents there, or below 1 pA, or below 1e-13 of the largest current at any node; the power balance likewise. A
// solution that does not close is returned with an error that names the place; so is one whose devices did not settle.
package dc
