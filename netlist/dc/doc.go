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
// from it to the root of the elimination tree are computed again, by the same arithmetic in the same order: the result
// equals a full factorisation to the last bit, whatever the change.
//
// A network with devices (elements whose current is a curve over voltage) is solved by Newton's method with a line
// search on the same factorisation. Every solve ends after a bounded number of steps.
//
// # Trust
//
// Each solution carries Kirchhoff's current sum at the worst node and the power balance. A solution that does not
// close is returned with an error that names the place; so is one whose devices did not settle.
package dc
