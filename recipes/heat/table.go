package heat

import "math"

// SizeRow is one line of a table by size: the estimates of just tender, tender
// and soft.
type SizeRow struct {
	SizeMM float64
	By     [3]Estimate
}

// Steps lists the sizes from low to high by step, high included if it falls on
// one, at most two hundred of them.
func Steps(low, high, step float64) []float64 {
	var sizes []float64
	for i := 0; len(sizes) < 200; i++ {
		size := low + float64(i)*step
		if size > high+hair {
			break
		}
		sizes = append(sizes, size)
	}
	return sizes
}

// UsualSizes are the sizes, in mm, that a table of a shape is worth: of pieces
// those a knife makes, of a tuber or root those it grows to, in about eight
// steps of whole millimetres.
func UsualSizes(crop Crop, shape Shape) []float64 {
	if !shape.OfTuber() {
		return Steps(5, 40, 5)
	}
	low, high := crop.Usual.LowMM, crop.Usual.HighMM
	return Steps(low, high, max(1, math.Round((high-low)/8)))
}

// BySize estimates one cut at several sizes, to every doneness.
func BySize(crop Crop, shape Shape, sizes []float64, c Conditions) ([]SizeRow, error) {
	rows := make([]SizeRow, len(sizes))
	for i, size := range sizes {
		cut := Cut{Shape: shape, SizeMM: size}
		if shape == Box {
			cut = Cut{Shape: shape, Sides: [3]float64{size, size, size}}
		}
		rows[i].SizeMM = size
		for d := JustTender; d <= Soft; d++ {
			e, err := Steam(crop, cut, d, c)
			if err != nil {
				return nil, err
			}
			rows[i].By[d-JustTender] = e
		}
	}
	return rows, nil
}
