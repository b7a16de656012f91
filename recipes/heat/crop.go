package heat

import (
	"fmt"
	"strings"

	"trencher/units"
	"trencher/units/measures"
)

// Crop is a crop as steam meets it: a row of data.
type Crop struct {
	Name, Kind  string
	Composition Composition
	// Length is how many times longer than wide a tuber, root or seed is, and
	// Thickness how many times thicker; 0 = as thick as wide.
	Length, Thickness float64
	// Stick: a long root or pod, reckoned as a cylinder, not as an egg.
	Stick bool
	// WidthMM is the usual width: the diameter of a slice, and of a whole pod
	// or seed when no size is given.
	WidthMM float64
	// Ready: comes in its own pieces, pods, seeds or kernels.
	Ready bool
	// Usual are the sizes, across, of an ungraded lot.
	Usual Sizes
	// Z is the rise in K that makes softening ten times as fast.
	Z float64
	// Targets are the cook values of just tender, tender and soft, in minutes
	// at 100 °C at the centre.
	Targets [3]float64
	// CompositionFrom says where the composition comes from, TargetsFrom where
	// Targets and Z do. Calibrated: the targets were set on published or
	// practice times; otherwise they are a judgement.
	CompositionFrom, TargetsFrom units.Provenance
	Calibrated                   bool
}

// Sizes is the span that sizes across are reckoned over, in mm; zero = ungraded.
// A riddle band is a units.Band of whole meshes; this is the physics' own, for
// the mean of a counted lot or the end of a cutting rule falls between meshes.
type Sizes struct{ LowMM, HighMM float64 }

// Target is the cook value of a doneness, in minutes at 100 °C.
func (c Crop) Target(d Doneness) float64 { return c.Targets[max(d, JustTender)-1] }

// Title is the crop with its kind: "potato (waxy)".
func (c Crop) Title() string {
	if c.Kind == "" {
		return c.Name
	}
	return c.Name + " (" + c.Kind + ")"
}

// Crops lists every crop row; a crop's first kind is its default.
func Crops() []Crop { return append([]Crop(nil), crops[:]...) }

// LookupCrop finds a crop by any of the names [measures.CropNamed] reads. An
// empty kind, or "any", is the crop's first: waxy for potato.
func LookupCrop(name, kind string) (Crop, error) {
	id := figuresFor(name)
	kind = strings.ToLower(strings.TrimSpace(kind))
	var kinds []string
	for _, crop := range crops {
		if figuresFor(crop.Name) != id {
			continue
		}
		if kind == "" || kind == "any" || kind == crop.Kind {
			return crop, nil
		}
		kinds = append(kinds, crop.Kind)
	}
	if kinds == nil {
		return Crop{}, &units.FieldError{Field: "crop", Value: measures.Fold(name), Problem: ErrNoFigures.Error(), Cause: ErrNoFigures,
			Accepted: "one of " + strings.Join(cropNames(), ", ")}
	}
	return Crop{}, &units.FieldError{Field: "kind", Value: kind, Problem: fmt.Sprintf("no such kind of %s", measures.Fold(name)),
		Accepted: acceptedKinds(kinds)}
}

// figuresFor is the id of the crop whose figures are those of a crop by its
// name: a dwarf French bean steams as a French bean, and so does a runner bean,
// which has none of its own.
func figuresFor(name string) string {
	id := measures.CropID(name)
	if crop, ok := measures.CropByID(id); ok {
		id = crop.InKitchen().ID
	}
	if id == "runner-bean" {
		return "french-bean"
	}
	return id
}

func acceptedKinds(kinds []string) string {
	if kinds[0] == "" {
		return "nothing for the kind"
	}
	return strings.Join(kinds, " or ")
}

func cropNames() []string {
	var names []string
	for _, crop := range crops {
		if len(names) == 0 || names[len(names)-1] != crop.Name {
			names = append(names, crop.Name)
		}
	}
	return names
}
