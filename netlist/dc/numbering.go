package dc

// levelsBelow is how many entries the columns of a factor may have on average to be numbered by levels.
const levelsBelow = 4

// levelOrder lists the columns by their distance from the root of the elimination tree, the furthest first. Each is then
// found from a few columns of earlier levels that are done long since, so that a processor need not wait for them.
// Within a level, columns with as many elements to later ones stand together, see [run], and otherwise by their
// vertices, so that results go out in order. later is the count of those elements by vertex.
func levelOrder(order, parent, later []int32) []int32 {
	const classes = 4
	m := len(parent)
	key := make([]int32, m)               // by vertex: level and class
	count := make([]int32, 0, 64*classes) // by key
	depth := make([]int32, m)
	for j := m - 1; j >= 0; j-- {
		d := int32(0)
		if p := parent[j]; p != none {
			d = depth[p] + 1
		}
		depth[j] = d
		for len(count) <= int(d)*classes {
			count = append(count, make([]int32, classes)...)
		}
		key[order[j]] = d*classes + min(later[order[j]], classes-1)
		count[key[order[j]]]++
	}
	start := int32(0)
	for d := len(count) - classes; d >= 0; d -= classes {
		for c := d; c < d+classes; c++ {
			count[c], start = start, start+count[c]
		}
	}
	place := invert(order)
	list := make([]int32, m)
	for v, k := range key {
		list[count[k]] = place[v]
		count[k]++
	}
	return list
}

// laterElements counts the elements of each vertex to a later one in the order or to the reference.
func laterElements(from, to, order []int32) []int32 {
	size := int32(len(order))
	place := invert(order)
	later := make([]int32, size)
	for i, u := range from {
		switch v := to[i]; {
		case v >= size || u < size && place[u] < place[v]:
			later[u]++
		default:
			later[v]++
		}
	}
	return later
}

// postorder lists the columns so that every subtree is a run that ends with its root, and long columns have their rows
// near each other in memory.
func postorder(parent []int32) []int32 {
	m := int32(len(parent))
	first, next := make([]int32, m), make([]int32, m)
	for v := range first {
		first[v] = none
	}
	for v := m - 1; v >= 0; v-- {
		if p := parent[v]; p != none {
			next[v] = first[p]
			first[p] = v
		}
	}
	post := make([]int32, 0, m)
	stack := make([]int32, 0, 64)
	for root := range m {
		if parent[root] != none {
			continue
		}
		stack = append(stack, root)
		for len(stack) > 0 {
			v := stack[len(stack)-1]
			if c := first[v]; c != none {
				first[v] = none
				for ; c != none; c = next[c] {
					stack = append(stack, c)
				}
				continue
			}
			stack = stack[:len(stack)-1]
			post = append(post, v)
		}
	}
	return post
}
