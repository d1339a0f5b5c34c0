package schematic

// Since calls f for every item that is not the same in an older snapshot: with
// what it is now, or nil where it is gone. The order means nothing. It costs
// next to nothing where the snapshots share most of their items. It stops when
// f returns false.
func (d *Doc) Since(old *Doc, f func(k Key, now Item) bool) {
	if d.info != old.info && !f(d.info.Key(), d.info) {
		return
	}
	for t := TypeSheet; t < typeEnd; t++ {
		for s := range shards {
			a, b := old.tables[t].of(s), d.tables[t].of(s)
			if len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0]) {
				continue
			}
			if !since(a, b, f) {
				return
			}
		}
	}
}

func (t *table) of(s int) []Item {
	if t == nil {
		return nil
	}
	return t.shard[s]
}

// since compares two lists of items in the order of their IDs.
func since(a, b []Item, f func(Key, Item) bool) bool {
	for len(a) > 0 || len(b) > 0 {
		c := 0
		switch {
		case len(a) == 0:
			c = 1
		case len(b) == 0:
			c = -1
		default:
			c = a[0].Key().Compare(b[0].Key())
		}
		ok := true
		switch {
		case c < 0:
			ok, a = f(a[0].Key(), nil), a[1:]
		case c > 0:
			ok, b = f(b[0].Key(), b[0]), b[1:]
		default:
			if a[0] != b[0] {
				ok = f(b[0].Key(), b[0])
			}
			a, b = a[1:], b[1:]
		}
		if !ok {
			return false
		}
	}
	return true
}
