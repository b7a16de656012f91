package heat

import "math"

// This file is the independent second route: trilinear finite elements in
// three dimensions on the real shape, against which the equivalent radial body
// is judged. It shares no code with the model.

// point is a place in the piece.
type point [3]float64

// solid is a meshed piece: a grid of nodes mapped from the unit cube, and the
// faces of that cube through which heat passes (the others are planes of
// symmetry).
type solid struct {
	cells   [3]int
	at      func(u, v, w float64) point
	exposed [6]bool // u=0, u=1, v=0, v=1, w=0, w=1
}

// sparse is a symmetric matrix by rows.
type sparse struct {
	columns [][]int32
	values  [][]float64
}

func newSparse(n int) *sparse {
	return &sparse{make([][]int32, n), make([][]float64, n)}
}

func (s *sparse) add(i, j int, x float64) {
	for k, column := range s.columns[i] {
		if int(column) == j {
			s.values[i][k] += x
			return
		}
	}
	s.columns[i] = append(s.columns[i], int32(j))
	s.values[i] = append(s.values[i], x)
}

// elements holds a solid's heat capacity, conduction and film matrices, for
// rho cp = 1, k = 1, h = 1.
type elements struct {
	nodes                   [3]int // along u, v, w
	capacity, conduct, film *sparse
	load                    []float64 // film's share of the surroundings' 1
	volume, area            float64
}

var gauss = [2]float64{0.5 - math.Sqrt(3)/6, 0.5 + math.Sqrt(3)/6}

func (s solid) assemble() *elements {
	nu, nv, nw := s.cells[0]+1, s.cells[1]+1, s.cells[2]+1
	index := func(i, j, k int) int { return (i*nv+j)*nw + k }
	n := nu * nv * nw
	e := &elements{nodes: [3]int{nu, nv, nw}, capacity: newSparse(n), conduct: newSparse(n), film: newSparse(n), load: make([]float64, n)}
	nodes := make([]point, n)
	for i := range nu {
		for j := range nv {
			for k := range nw {
				nodes[index(i, j, k)] = s.at(float64(i)/float64(nu-1), float64(j)/float64(nv-1), float64(k)/float64(nw-1))
			}
		}
	}
	for i := range nu - 1 {
		for j := range nv - 1 {
			for k := range nw - 1 {
				var ids [8]int
				for c := range 8 {
					ids[c] = index(i+c>>2, j+c>>1&1, k+c&1)
				}
				e.addCell(nodes, ids)
			}
		}
	}
	e.addFaces(s, nodes, index)
	return e
}

// shape8 gives the eight trilinear functions and their slopes at a place in the
// cell.
func shape8(u, v, w float64) (f [8]float64, d [8]point) {
	lin := [3][2]float64{{1 - u, u}, {1 - v, v}, {1 - w, w}}
	sign := [2]float64{-1, 1}
	for c := range 8 {
		a, b, g := c>>2, c>>1&1, c&1
		f[c] = lin[0][a] * lin[1][b] * lin[2][g]
		d[c] = point{sign[a] * lin[1][b] * lin[2][g], lin[0][a] * sign[b] * lin[2][g], lin[0][a] * lin[1][b] * sign[g]}
	}
	return f, d
}

func (e *elements) addCell(nodes []point, ids [8]int) {
	for g := range 8 {
		f, d := shape8(gauss[g>>2], gauss[g>>1&1], gauss[g&1])
		var jac [3]point // rows: slope of place by u, v, w
		for c, id := range ids {
			for a := range 3 {
				for x := range 3 {
					jac[a][x] += d[c][a] * nodes[id][x]
				}
			}
		}
		det := dot(jac[0], cross(jac[1], jac[2]))
		inverse := [3]point{cross(jac[1], jac[2]), cross(jac[2], jac[0]), cross(jac[0], jac[1])}
		weight := math.Abs(det) / 8
		if weight == 0 {
			continue
		}
		var slope [8]point
		for c := range 8 {
			for x := range 3 {
				slope[c][x] = (inverse[0][x]*d[c][0] + inverse[1][x]*d[c][1] + inverse[2][x]*d[c][2]) / det
			}
		}
		e.volume += weight
		for a, ida := range ids {
			for b, idb := range ids {
				e.capacity.add(ida, idb, weight*f[a]*f[b])
				e.conduct.add(ida, idb, weight*dot(slope[a], slope[b]))
			}
		}
	}
}

func (e *elements) addFaces(s solid, nodes []point, index func(i, j, k int) int) {
	for face, open := range s.exposed {
		if !open {
			continue
		}
		axis, side := face/2, face%2
		one, two := (axis+1)%3, (axis+2)%3
		for i := range s.cells[one] {
			for j := range s.cells[two] {
				var ids [4]int
				for c := range 4 {
					var at [3]int
					at[axis], at[one], at[two] = side*s.cells[axis], i+c>>1, j+c&1
					ids[c] = index(at[0], at[1], at[2])
				}
				e.addFace(nodes, ids)
			}
		}
	}
}

func (e *elements) addFace(nodes []point, ids [4]int) {
	for g := range 4 {
		u, v := gauss[g>>1], gauss[g&1]
		f := [4]float64{(1 - u) * (1 - v), (1 - u) * v, u * (1 - v), u * v}
		du := [4]float64{-(1 - v), -v, 1 - v, v}
		dv := [4]float64{-(1 - u), 1 - u, -u, u}
		var along, across point
		for c, id := range ids {
			for x := range 3 {
				along[x] += du[c] * nodes[id][x]
				across[x] += dv[c] * nodes[id][x]
			}
		}
		normal := cross(along, across)
		weight := math.Sqrt(dot(normal, normal)) / 4
		e.area += weight
		for a, ida := range ids {
			e.load[ida] += weight * f[a]
			for b, idb := range ids {
				e.film.add(ida, idb, weight*f[a]*f[b])
			}
		}
	}
}

func dot(a, b point) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

func cross(a, b point) point {
	return point{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

// flat is a symmetric matrix m + c·s in one pattern, ready to multiply.
type flat struct {
	start   []int32
	column  []int32
	m, s, a []float64
	under   []float64 // 1 over the diagonal of a
}

// flatten joins capacity, conduction and film (times h) in one pattern.
func (e *elements) flatten(h float64) *flat {
	n := len(e.load)
	f := &flat{start: make([]int32, n+1), under: make([]float64, n)}
	for i := range n {
		for k, j := range e.conduct.columns[i] {
			f.column = append(f.column, j)
			f.m = append(f.m, e.capacity.values[i][k])
			stiff := e.conduct.values[i][k]
			for l, other := range e.film.columns[i] {
				if other == j {
					stiff += h * e.film.values[i][l]
				}
			}
			f.s = append(f.s, stiff)
		}
		f.start[i+1] = int32(len(f.column))
	}
	f.a = make([]float64, len(f.m))
	return f
}

// set makes a = m + c·s.
func (f *flat) set(c float64) {
	for k := range f.a {
		f.a[k] = f.m[k] + c*f.s[k]
	}
	for i := range f.under {
		f.under[i] = 1
		for k := f.start[i]; k < f.start[i+1]; k++ {
			if int(f.column[k]) == i && f.a[k] != 0 {
				f.under[i] = 1 / f.a[k]
			}
		}
	}
}

func (f *flat) times(values, x, y []float64) {
	for i := range y {
		sum := 0.0
		for k := f.start[i]; k < f.start[i+1]; k++ {
			sum += values[k] * x[f.column[k]]
		}
		y[i] = sum
	}
}

// slowest marches theta (1 at the start, surroundings 0) with alpha = k = 1 and
// the surface coefficient h, and shows visit the largest theta of the piece at
// each moment, until visit has seen enough. The first steps are implicit
// (to damp the jump at the surface), the others Crank-Nicolson.
func (e *elements) slowest(h, dt float64, visit func(fo, theta float64) (more bool)) {
	n := len(e.load)
	f := e.flatten(h)
	theta, right, other := make([]float64, n), make([]float64, n), make([]float64, n)
	for i := range theta {
		theta[i] = 1
	}
	work := [3][]float64{make([]float64, n), make([]float64, n), make([]float64, n)}
	step := func(explicit float64) {
		f.times(f.m, theta, right)
		if explicit > 0 {
			f.times(f.s, theta, other)
			for i := range right {
				right[i] -= explicit * other[i]
			}
		}
		f.solve(right, theta, work)
	}
	fo := 0.0
	f.set(dt / 4)
	for range 8 {
		step(0)
		fo += dt / 4
	}
	f.set(dt / 2)
	for visit(fo, e.peak(theta)) {
		step(dt / 2)
		fo += dt
	}
}

// peak is the largest theta: of the nodes, and between them by a parabola along
// each line of the grid.
func (e *elements) peak(theta []float64) float64 {
	top := 0
	for i, value := range theta {
		if value > theta[top] {
			top = i
		}
	}
	stride := [3]int{e.nodes[1] * e.nodes[2], e.nodes[2], 1}
	peak := theta[top]
	for axis, step := range stride {
		at := top / step % e.nodes[axis]
		if at == 0 || at == e.nodes[axis]-1 {
			continue // on a plane of symmetry, or the middle
		}
		before, after := theta[top-step], theta[top+step]
		if bend := 2*theta[top] - before - after; bend > 0 {
			peak += (after - before) * (after - before) / (8 * bend)
		}
	}
	return peak
}

// solve finds x with a x = b by conjugate gradients, scaled by the diagonal,
// from x as it stands.
func (f *flat) solve(b, x []float64, work [3][]float64) {
	rest, way, turned := work[0], work[1], work[2]
	f.times(f.a, x, turned)
	size, old := 0.0, 0.0
	for i := range b {
		rest[i] = b[i] - turned[i]
		way[i] = rest[i] * f.under[i]
		size += b[i] * b[i] * f.under[i]
		old += rest[i] * way[i]
	}
	for range 400 {
		if old <= 1e-13*size {
			return
		}
		f.times(f.a, way, turned)
		below := 0.0
		for i := range b {
			below += way[i] * turned[i]
		}
		scale, now := old/below, 0.0
		for i := range b {
			x[i] += scale * way[i]
			rest[i] -= scale * turned[i]
			now += rest[i] * rest[i] * f.under[i]
		}
		for i := range b {
			way[i] = rest[i]*f.under[i] + now/old*way[i]
		}
		old = now
	}
}

// ballPart meshes one symmetric part of a cut ellipsoid with half lengths a, b,
// c along x, y, z. r runs outwards (graded towards the surface), v from the
// long axis to the plane across it, w around the long axis.
func ballPart(shape Shape, a, b, c float64, cells [3]int) solid {
	turn := math.Pi / 2
	s := solid{cells: cells}
	s.exposed[1] = true
	switch shape {
	case Halves: // plane y = 0
		s.exposed[5] = true
	case HalvesAcross: // plane x = 0
		s.exposed[3] = true
	case Quarters: // planes y = 0, z = 0
		s.exposed[4], s.exposed[5] = true, true
	case Eighths: // all three
		s.exposed[3], s.exposed[4], s.exposed[5] = true, true, true
	case Wedges: // 45 degrees; half of it, from its middle plane to its cut
		s.exposed[5], turn = true, math.Pi/8
	}
	s.at = func(u, v, w float64) point {
		r := u * (1.6 - 0.6*u)
		polar, round := v*math.Pi/2, w*turn
		return point{a * r * math.Cos(polar), b * r * math.Sin(polar) * math.Cos(round), c * r * math.Sin(polar) * math.Sin(round)}
	}
	return s
}

// brickPart meshes an eighth of a brick with half sides a, b, c.
func brickPart(a, b, c float64, cells [3]int) solid {
	grade := func(u float64) float64 { return u * (1.5 - 0.5*u) }
	return solid{cells: cells, exposed: [6]bool{1: true, 3: true, 5: true},
		at: func(u, v, w float64) point { return point{a * grade(u), b * grade(v), c * grade(w)} }}
}

// discPart meshes an eighth of a disc or stick of radius r and half height l.
func discPart(r, l float64, cells [3]int) solid {
	grade := func(u float64) float64 { return u * (1.5 - 0.5*u) }
	return solid{cells: cells, exposed: [6]bool{1: true, 5: true},
		at: func(u, v, w float64) point {
			round := v * math.Pi / 2
			return point{r * grade(u) * math.Cos(round), r * grade(u) * math.Sin(round), l * grade(w)}
		}}
}

// stickPart meshes a fourth of a part of a stick of radius r and half length l,
// cut lengthwise: from the part's middle plane to its cut.
func stickPart(shape Shape, r, l float64, cells [3]int) solid {
	turn := map[Shape]float64{Halves: math.Pi / 2, Quarters: math.Pi / 4, Wedges: math.Pi / 8}[shape]
	grade := func(u float64) float64 { return u * (1.6 - 0.6*u) }
	return solid{cells: cells, exposed: [6]bool{1: true, 3: true, 5: true},
		at: func(u, v, w float64) point {
			return point{r * grade(u) * math.Cos(v*turn), r * grade(u) * math.Sin(v*turn), l * grade(w)}
		}}
}
