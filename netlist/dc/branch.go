package dc

// branches holds the elements in the order in which the solver runs over them.
type branches struct {
	// The resistors by the column of the matrix they stand in, which is the lower of their two positions. Those of
	// column j are ptr[j] to ptr[j+1]. A row is the position of the other end.
	ptr     []int32
	row     []int32
	siemens []float64
	runs    []run

	// The same by the row they stand in: those of row p are lower[lowerPtr[p]:lowerPtr[p+1]].
	lowerPtr, lower []int32

	// All other elements, the active ones, by the position of each of their ends. Those at position p are
	// active[activePtr[p]:activePtr[p+1]], with all bits turned over where it is the end their current comes out of.
	activePtr, active []int32

	// By element: where it stands, first the resistors, then the active elements. All bits are turned over in a resistor
	// that points to its column.
	place []int32
}

// run is a run of columns up to end with as many resistors each, or, with own = mixed, with any number.
type run struct{ end, own int32 }

const (
	mixed    = -1
	leastRun = 16 // shorter ones are not worth the start of a loop
)

// findRuns finds the runs of columns with one or two resistors.
func (bs *branches) findRuns() {
	bs.runs = bs.runs[:0]
	add := func(end, own int32) {
		if last := len(bs.runs) - 1; last >= 0 && bs.runs[last].own == own {
			bs.runs[last].end = end
		} else {
			bs.runs = append(bs.runs, run{end, own})
		}
	}
	size := int32(len(bs.ptr) - 1)
	for j := int32(0); j < size; {
		begin, own := j, bs.ptr[j+1]-bs.ptr[j]
		for ; j < size && bs.ptr[j+1]-bs.ptr[j] == own; j++ {
		}
		if j-begin < leastRun || own != 1 && own != 2 {
			own = mixed
		}
		add(j, own)
	}
}

// seat returns the place an entry of the places stands for, and -1 for a resistor that points to its column, 1 for all
// else.
func seat(place int32) (q int32, way float64) {
	return place ^ place>>31, [2]float64{1, -1}[uint32(place)>>31]
}

// upright turns the bits of a number back over if they are, and tells whether they were.
func upright(x int32) (number int32, turned bool) {
	if x < 0 {
		return ^x, true
	}
	return x, false
}

// file sorts the elements.
func (bs *branches) file(n *Network) {
	s := &n.sym
	size := int(s.size)
	bs.place = resize(bs.place, len(n.kind))
	bs.ptr = resize(bs.ptr, size+1)
	bs.lowerPtr = resize(bs.lowerPtr, size+2)
	bs.activePtr = resize(bs.activePtr, size+2)
	clear(bs.ptr)
	clear(bs.lowerPtr)
	clear(bs.activePtr)
	for e, at := range s.ends {
		if n.kind[e] == KindResistor {
			bs.ptr[min(at.a, at.b)]++
			bs.lowerPtr[max(at.a, at.b)]++
		}
	}
	for i, e := range n.actives {
		bs.place[e] = int32(len(n.kind) - len(n.actives) + i)
		bs.activePtr[s.ends[e].a]++
		bs.activePtr[s.ends[e].b]++
	}
	resistors := runEnds(bs.ptr)
	runEnds(bs.lowerPtr)
	bs.row = resize(bs.row, int(resistors))
	bs.siemens = resize(bs.siemens, int(resistors))
	bs.lower = resize(bs.lower, int(resistors))
	bs.active = resize(bs.active, int(runEnds(bs.activePtr)))

	for e := len(s.ends) - 1; e >= 0; e-- {
		if n.kind[e] != KindResistor {
			continue
		}
		at := s.ends[e]
		j := min(at.a, at.b)
		bs.ptr[j]--
		q := bs.ptr[j]
		bs.place[e] = q
		bs.siemens[q] = n.g[e]
		bs.row[q] = max(at.a, at.b)
		if at.a > at.b {
			bs.place[e] = ^q
		}
	}
	bs.findRuns()
	for q := len(bs.row) - 1; q >= 0; q-- {
		row := bs.row[q]
		bs.lowerPtr[row]--
		bs.lower[bs.lowerPtr[row]] = int32(q)
	}
	for i := len(n.actives) - 1; i >= 0; i-- {
		e := n.actives[i]
		at := s.ends[e]
		bs.activePtr[at.a]--
		bs.active[bs.activePtr[at.a]] = int32(e)
		bs.activePtr[at.b]--
		bs.active[bs.activePtr[at.b]] = ^int32(e)
	}
}

// runEnds turns counts into the ends of the runs they make, with their total in the last place, and returns the total.
func runEnds(counts []int32) int32 {
	total := int32(0)
	for i, c := range counts {
		total += c
		counts[i] = total
	}
	return total
}
