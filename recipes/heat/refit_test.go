package heat

import (
	"encoding/csv"
	"math"
	"os"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// This file fits z and the targets of the crops to printed tables, anew at every
// run of the tests: TestTargetsAreFitted fails where the table of crops says
// anything else. What is known beforehand of a crop's z comes from published
// kinetics (testdata/steaming/kinetics.csv). A printed time stands for
//
//	ln(printed middle) = ln(model(z, tender) + offset) + source + rest
//
// with an offset in minutes for each way of cooking (late clocks, opened lids,
// pieces piled up), a style for each source, and a rest. The sizes of a row are a
// distribution: log-uniform over what is assumed for it. The maximum of the
// posterior is found by coordinate descent on a grid.

// fittedRow is one row of the printed tables with its pieces' histories.
type fittedRow struct {
	Printed
	crop   string
	pieces []fittedPiece
}

type fittedPiece struct {
	h     *history
	freeS *float64
	known map[[2]float64]float64
}

const (
	fitRest, fitStyle   = 0.25, 0.25 // sd of the logarithm
	fitTargets          = 0.5        // sd of ln C about what kinetics say
	fitOffset, fitClock = 1.0, 1.0   // minutes: mean and sd of the offset
	fitSizes            = 5          // quantiles of a row's sizes
	fitCommon           = 3.0        // values of a crop's own that what all have in common outweighs
)

// fitRows are the rows that the model can speak about: fresh, boiled or steamed,
// of one body's shape, not from the textbooks of a hundred years ago.
func fitRows(t testing.TB) []*fittedRow {
	var rows []*fittedRow
	for _, p := range PrintedTimes() {
		if !p.modelled() {
			continue
		}
		crop := crop(t, p.Crop, "")
		row := &fittedRow{Printed: p, crop: crop.Name}
		for i := range fitSizes {
			row.pieces = append(row.pieces, fitPiece(t, p, crop, p.size((float64(i)+0.5)/fitSizes)))
		}
		rows = append(rows, row)
	}
	return rows
}

func fitPiece(t testing.TB, p Printed, crop Crop, mm float64) fittedPiece {
	s, err := newSituation(crop, p.Cut(mm), Tender, Conditions{}.filled())
	require.NoError(t, err, p.ID)
	s.layers, s.film = 1, filmNominal // an even layer: the offset stands for what is piled up
	piece := fittedPiece{known: map[[2]float64]float64{}}
	if p.Way == WayBoil {
		pot := s.boiling(500, Water{ML: 1000}, fire{powerW: DefaultBoilingW, panJK: defaultPanKg * steelHeat})
		piece.h, piece.freeS = &pot.history, &pot.backS
	} else {
		f := s.run(shells)
		piece.h, piece.freeS = f.last(), &f.freeS
	}
	if p.From == FromPutIn {
		piece.freeS = new(float64)
	}
	return piece
}

// minutes are what the model says of a piece, by the row's clock.
func (p fittedPiece) minutes(target, z float64) float64 {
	key := [2]float64{target, z}
	if known, ok := p.known[key]; ok {
		return known
	}
	t := timing{p.h.cooked(target, z), *p.freeS}
	minutes := max(0.25, (t.seconds-math.Min(t.freeS, t.seconds))/60)
	p.known[key] = minutes
	return minutes
}

// logarithm is the mean of ln(model + offset) over the row's sizes.
func (r *fittedRow) logarithm(target, z, offset float64) float64 {
	sum := 0.0
	for _, piece := range r.pieces {
		sum += math.Log(piece.minutes(target, z) + offset)
	}
	return sum / float64(len(r.pieces))
}

func (r *fittedRow) printed() float64 { return math.Log(r.Low*r.High) / 2 }

// fit is the state of the search.
type fit struct {
	rows   []*fittedRow
	crops  []string
	z, c   map[string]float64
	prior  map[string][2]float64 // ln z and its sd
	offset map[Way]float64
	style  map[string]float64 // by source, ln
	apart  float64            // sd of the sources' styles
	usual  map[string]float64 // ln C as published kinetics have it
}

func (f *fit) misses(r *fittedRow) float64 {
	return r.printed() - r.logarithm(f.c[r.crop], f.z[r.crop], f.offset[r.Way])
}

// cost is minus twice the logarithm of the posterior, but for a constant, of one
// crop's z and C.
func (f *fit) cost(crop string, z, c float64) float64 {
	sum := square((math.Log(c) - f.usual[crop]) / fitTargets)
	sum += square((math.Log(z) - f.prior[crop][0]) / f.prior[crop][1])
	for _, r := range f.rows {
		if r.crop == crop {
			rest := r.printed() - r.logarithm(c, z, f.offset[r.Way]) - f.style[r.Source]
			sum += square(rest / fitRest)
		}
	}
	return sum
}

func square(x float64) float64 { return x * x }

// The grid that z, in K, and C, in minutes, are looked for on, and how far from
// where they stand at a time.
var (
	fitZ = geometric(14, 60, 1.03)
	fitC = geometric(0.4, 60, 1.03)
)

const fitNear = 3

// solve goes round the coordinates until nothing moves.
func (f *fit) solve() {
	for moved := true; moved; {
		moved = false
		for _, crop := range f.crops {
			atZ, atC := nearestOf(fitZ, f.z[crop]), nearestOf(fitC, f.c[crop])
			bestZ, bestC, best := atZ, atC, math.Inf(1)
			for z := max(0, atZ-fitNear); z <= min(len(fitZ)-1, atZ+fitNear); z++ {
				for c := max(0, atC-fitNear); c <= min(len(fitC)-1, atC+fitNear); c++ {
					if cost := f.cost(crop, fitZ[z], fitC[c]); cost < best {
						best, bestZ, bestC = cost, z, c
					}
				}
			}
			moved = moved || bestZ != atZ || bestC != atC
			f.z[crop], f.c[crop] = fitZ[bestZ], fitC[bestC]
		}
		f.styles()
		moved = f.offsets() || moved
	}
}

func nearestOf(list []float64, x float64) int {
	best := 0
	for i := range list {
		if math.Abs(list[i]-x) < math.Abs(list[best]-x) {
			best = i
		}
	}
	return best
}

// styles are each source's mean rest, drawn to nothing by what is known before.
func (f *fit) styles() {
	sum, count := map[string]float64{}, map[string]float64{}
	for _, r := range f.rows {
		sum[r.Source] += f.misses(r)
		count[r.Source]++
	}
	for source := range sum {
		f.style[source] = sum[source] / (count[source] + square(fitRest/f.apart))
	}
}

// offsets are looked for in twentieths of a minute.
func (f *fit) offsets() (moved bool) {
	for _, way := range []Way{WayBoil, WaySteam} {
		best, least := 0.0, math.Inf(1)
		for offset := 0.0; offset <= 4; offset += 0.05 {
			cost := square((offset - fitOffset) / fitClock)
			for _, r := range f.rows {
				if r.Way == way {
					cost += square((r.printed() - r.logarithm(f.c[r.crop], f.z[r.crop], offset) - f.style[r.Source]) / fitRest)
				}
			}
			if cost < least {
				best, least = offset, cost
			}
		}
		moved = moved || f.offset[way] != best
		f.offset[way] = best
	}
	return moved
}

func geometric(from, to, by float64) []float64 {
	var list []float64
	for x := from; x <= to; x *= by {
		list = append(list, x)
	}
	return list
}

// leftWhenSoft is the share of a potato's raw firmness that is left once it is
// steamed soft: Alvarez & Canet (2001), abstract (known_by: read).
const leftWhenSoft = 0.16

// priors are what kinetics say of a crop's z and C before any printed time. z is
// the median of its published values, pooled with what all have in common, for the
// methods of one study part it from another's; the more there are, the surer. C is when its median rate at 100 °C, pooled
// in the same way, has left no more firmness than there is in what is soft.
func priors(t testing.TB, crops []string) (z map[string][2]float64, usual map[string]float64) {
	f, err := os.Open("../../testdata/steaming/kinetics.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	zs, rates := map[string][]float64{}, map[string][]float64{}
	for _, r := range rows[1:] {
		if r[3] != "softening" {
			continue
		}
		if z, err := strconv.ParseFloat(r[9], 64); err == nil {
			zs[r[1]] = append(zs[r[1]], z)
		}
		if rate, err := strconv.ParseFloat(r[6], 64); err == nil && r[7] == "1/min" && r[8] == "100" {
			rates[r[1]] = append(rates[r[1]], rate)
		}
	}
	z, usual = map[string][2]float64{}, map[string]float64{}
	for _, crop := range crops {
		z[crop] = [2]float64{pooled(zs, crop), 0.2 + 0.15/(1+float64(len(zs[crop]))/2)}
		usual[crop] = math.Log(math.Log(1/leftWhenSoft)/softShare) - pooled(rates, crop)
	}
	return z, usual
}

// pooled is the mean logarithm of a crop's median, for each of its values, and of
// the median of all, for as many as fitCommon.
func pooled(values map[string][]float64, crop string) float64 {
	var all []float64
	for _, list := range values {
		all = append(all, list...)
	}
	n, common := float64(len(values[crop])), math.Log(median(all))
	if n == 0 {
		return common
	}
	return (fitCommon*common + n*math.Log(median(values[crop]))) / (n + fitCommon)
}

func median(list []float64) float64 {
	list = slices.Sorted(slices.Values(list))
	n := len(list)
	return (list[(n-1)/2] + list[n/2]) / 2
}

func refit(t testing.TB) *fit { return refitTo(t, fitRows(t), fitStyle) }

// refitTo fits rows alone, with that standard deviation of the sources' styles.
func refitTo(t testing.TB, rows []*fittedRow, apart float64) *fit {
	f := &fit{rows: rows, apart: apart, z: map[string]float64{}, c: map[string]float64{}, offset: map[Way]float64{WayBoil: 1, WaySteam: 1}, style: map[string]float64{}}
	for _, r := range f.rows {
		if !slices.Contains(f.crops, r.crop) {
			f.crops = append(f.crops, r.crop)
			f.c[r.crop] = 8
		}
	}
	f.prior, f.usual = priors(t, f.crops)
	for _, crop := range f.crops {
		f.z[crop] = math.Exp(f.prior[crop][0])
	}
	f.solve()
	return f
}

// Just tender and soft, against tender (judgement: what brings the leaflets of
// today and the tables of the middle of the last century to the same bias).
const justTenderShare, softShare = 0.45, 1.8

// rounded to two figures, as the table of crops has targets.
func rounded(x float64) float64 {
	unit := math.Pow(10, math.Floor(math.Log10(x))-1)
	return math.Round(x/unit) * unit
}

func TestTargetsAreFitted(t *testing.T) {
	f := refit(t)
	assert.Len(t, f.rows, 68)
	for _, name := range f.crops {
		c, count := crop(t, name, ""), 0
		for _, r := range f.rows {
			if r.crop == name {
				count++
			}
		}
		t.Logf("%-13s %2d rows; z %.2f, known before %.2f; tender %.3f", name, count, f.z[name], math.Exp(f.prior[name][0]), f.c[name])
		assert.Equal(t, math.Round(f.z[name]), c.Z, "z of %s", name)
		for i, share := range []float64{justTenderShare, 1, softShare} {
			assert.InDelta(t, rounded(share*f.c[name]), c.Targets[i], 1e-9, "%s, target %d", name, i)
		}
		assert.Equal(t, fitted(count), c.TargetsFrom, "%s", name)
		assert.True(t, c.Calibrated, "%s", name)
	}
	// A row is reckoned for an answer's reasons as it was for the fit.
	for _, r := range f.rows {
		c := crop(t, r.crop, "")
		minutes, err := r.reckon(c, r.size(0.5), Tender)
		require.NoError(t, err)
		assert.InEpsilon(t, r.pieces[fitSizes/2].minutes(c.Target(Tender), c.Z)+printedOffset[r.Way], minutes, 1e-9, r.ID)
	}
	assert.InDelta(t, f.offset[WayBoil], printedOffset[WayBoil], 1e-9)
	assert.InDelta(t, f.offset[WaySteam], printedOffset[WaySteam], 1e-9)
	// A source's style is the doneness that its rows are nearest to.
	for source, style := range f.nearestStyles(t) {
		for _, r := range f.rows {
			if r.Source == source {
				assert.Equal(t, style.String(), r.Style.String(), "%s: %+.2f", source, f.style[source])
				break
			}
		}
	}
}

// nearestStyles is, for each source, the doneness whose targets come nearest to its
// rows.
func (f *fit) nearestStyles(t testing.TB) map[string]Doneness {
	miss := map[string][3]float64{}
	for _, r := range f.rows {
		c := crop(t, r.crop, "")
		sums := miss[r.Source]
		for d := JustTender; d <= Soft; d++ {
			sums[d-1] += square(r.printed() - r.logarithm(c.Target(d), c.Z, f.offset[r.Way]))
		}
		miss[r.Source] = sums
	}
	out := map[string]Doneness{}
	for source, sums := range miss {
		best := 0
		for i := range sums {
			if sums[i] < sums[best] {
				best = i
			}
		}
		out[source] = Doneness(best + 1)
	}
	return out
}
