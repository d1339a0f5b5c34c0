package dc

import "math/bits"

// volt is a voltage, V, as the sum of two numbers: lo carries the digits hi has no room for.
type volt struct{ hi, lo float64 }

// minus returns the difference of two voltages, to the last digits of the difference.
func (v volt) minus(u volt) float64 { return (v.hi - u.hi) + (v.lo - u.lo) }

// plus returns v + d. Where d is larger than v, the digits below the last one of hi are lost, but then they do not
// matter to d either (Dekker 1971).
func (v volt) plus(d float64) volt {
	d += v.lo
	hi := v.hi + d
	return volt{hi, d - (hi - v.hi)}
}

// twoSum returns a+b as its float64 and what that misses (Knuth 1969, 4.2.2).
func twoSum(a, b float64) (sum, rest float64) {
	sum = a + b
	part := sum - a
	return sum, (a - (sum - part)) + (b - part)
}

// linear solves the network with its present factor. Every sum that is marked is taken as a whole and in the same
// order, so that the result does not depend on what was marked.
func (n *Network) linear(x []volt) {
	n.push()
	n.carry()
	n.spread(x)
}

// push finds the marked currents that the elements push into the columns.
func (n *Network) push() {
	s, f, bs := &n.sym, &n.fac, &n.branches
	for i, word := range f.dirty.pushed {
		for ; word != 0; word &= word - 1 {
			j := i<<6 + bits.TrailingZeros64(word)
			sum := 0.0
			lead, _ := upright(f.star[j].lead)
			led := lead - s.size - 1 // the voltage source that leads the column, if not negative
			for _, x := range bs.active[bs.activePtr[j]:bs.activePtr[j+1]] {
				e, atB := upright(x)
				emf, push := n.emf[e], n.g[e]*n.emf[e]-n.inj[e]
				if atB {
					emf, push = -emf, -push
				}
				if led >= 0 && n.kind[e] == KindVoltage && n.slot[e] == led {
					f.rail[led] = rail{emf, push}
				} else {
					sum += push
				}
			}
			f.pushed[j] = sum
		}
		f.dirty.pushed[i] = 0
	}
}

// carry finds the marked currents that the columns carry.
func (n *Network) carry() {
	s, f := &n.sym, &n.fac
	for i, word := range f.dirty.carried {
		for ; word != 0; word &= word - 1 {
			j := i<<6 + bits.TrailingZeros64(word)
			sum := f.pushed[j]
			pos := s.rowPos[s.rowPtr[j]:s.rowPtr[j+1]]
			for q, k := range s.rowCol[s.rowPtr[j]:s.rowPtr[j+1]] {
				sum += f.weight[pos[q]] * f.carried[k]
			}
			lead, _ := upright(f.star[j].lead)
			f.star[j].lead = lead
			if f.own[j] = sum * f.inv[j]; f.own[j] != 0 {
				f.star[j].lead = ^lead
			}
			if k := lead - s.size - 1; k >= 0 {
				sum += f.rail[k].push
			}
			f.carried[j] = sum
		}
		f.dirty.carried[i] = 0
	}
}

// spread finds the voltages x from the carried currents, each by its difference from that of its lead, so that no
// digits are lost where a stiff conductance makes two voltages nearly equal.
func (n *Network) spread(x []volt) {
	s, f := &n.sym, &n.fac
	x[s.size] = volt{}
	for k, r := range f.rail {
		x[int(s.size)+1+k] = volt{hi: r.volt}
	}
	stars := f.star
	for j := len(stars) - 1; j >= 0; j-- {
		star := &stars[j]
		lead, drop := star.lead, 0.0
		if lead < 0 { // most columns carry nothing
			lead, drop = ^lead, f.own[j]
		}
		base := x[lead]
		drop -= star.ground * base.hi
		if star.other >= 0 {
			drop += star.share * x[star.other].minus(base)
		} else {
			weight := f.weight[s.colPtr[j]:s.colPtr[j+1]]
			for i, row := range s.rows[s.colPtr[j]:s.colPtr[j+1]] {
				drop += weight[i] * x[row].minus(base)
			}
		}
		x[j] = base.plus(drop)
	}
}

// correct finds the voltages that the currents x make, in place and without the sources.
func (n *Network) correct(x []float64) {
	s, f := &n.sym, &n.fac
	for j := range s.size {
		v := x[j]
		if v == 0 {
			continue
		}
		weight := f.weight[s.colPtr[j]:s.colPtr[j+1]]
		for i, row := range s.rows[s.colPtr[j]:s.colPtr[j+1]] {
			x[row] += weight[i] * v
		}
	}
	for j := s.size - 1; j >= 0; j-- {
		v := x[j] * f.inv[j]
		weight := f.weight[s.colPtr[j]:s.colPtr[j+1]]
		for i, row := range s.rows[s.colPtr[j]:s.colPtr[j+1]] {
			v += weight[i] * x[row]
		}
		x[j] = v
	}
}
