package meal

import (
	"math"
	"math/big"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/units"
)

// LoadClass is what is steamed alike in a plan: the parts of one crop, texture,
// cut and doneness, which may lie in one layer.
type LoadClass struct {
	Class    string // "potato waxy cube 25 mm tender"; texture "any" where the line names none
	Dishes   []string
	Grams    decimal.Decimal // prepared
	PerLayer decimal.Decimal // grams that one layer of this steamer holds
	Layers   int
}

// anyTexture stands in a class where a dish's line names no texture: what the
// lots are like never changes it.
const anyTexture = "any"

// classOf names the load class of a crop line; "" of one that is not steamed.
func classOf(line recipes.CropLine) string {
	if line.Cook != "steam" {
		return ""
	}
	texture := line.Texture
	if texture == "" {
		texture = anyTexture
	}
	return strings.Join(strings.Fields(strings.Join([]string{line.Crop, texture, line.Cut, line.Until}, " ")), " ")
}

// layerPlaces are the decimals of a gram that what a layer holds is told to, and
// reckoned with: rounded down.
const layerPlaces = 1

// layers says what one layer of the kitchen's steamer holds of each load class of
// the question's dishes: the least that any of its lines comes to. A crop without
// figures has no class.
func (q *Question) layers() map[string]decimal.Decimal {
	holds := map[string]decimal.Decimal{}
	k := newKitchen(*q)
	for _, dish := range q.Dishes {
		for _, line := range dish.Crops {
			class := classOf(line)
			if class == "" {
				continue
			}
			layer, known := k.layer(line)
			if least, ok := holds[class]; known && (!ok || layer.LessThan(least)) {
				holds[class] = layer
			}
		}
	}
	return holds
}

// layer is what one layer holds of a crop line; known is false of one without
// figures.
func (k *kitchen) layer(line recipes.CropLine) (holds decimal.Decimal, known bool) {
	piece, err := pieceOf(Part{Line: line})
	if err != nil {
		return holds, false
	}
	grams, err := heat.LayerGrams(piece.Crop, piece.Sized, piece.Until, k.equipment, k.conditions)
	if err != nil || !(grams > 0) || math.IsInf(grams, 0) {
		return holds, false
	}
	holds = decimal.NewFromFloat(grams).RoundFloor(layerPlaces)
	return holds, holds.IsPositive()
}

// preparedPerPortion is the grams a portion takes of a crop line once prepared.
func preparedPerPortion(dish recipes.Dish, line int) *big.Rat {
	amount, err := dish.Crops[line].Amount.In(units.Gram)
	if err != nil || dish.Portions < 1 {
		return new(big.Rat)
	}
	return new(big.Rat).Quo(amount.Rat(), big.NewRat(int64(dish.Portions), 1))
}

// loadsOf lists the load classes of the dishes made, in their order.
func loadsOf(q Question, dishes []Dish) []LoadClass {
	holds := q.layers()
	var list []LoadClass
	sums := map[string]*big.Rat{}
	for _, dish := range dishes {
		for i, part := range dish.Parts {
			class := classOf(part.Line)
			layer, ok := holds[class]
			if !ok {
				continue
			}
			at := slices.IndexFunc(list, func(l LoadClass) bool { return l.Class == class })
			if at < 0 {
				at = len(list)
				list = append(list, LoadClass{Class: class, PerLayer: layer})
				sums[class] = new(big.Rat)
			}
			if !slices.Contains(list[at].Dishes, dish.Name()) {
				list[at].Dishes = append(list[at].Dishes, dish.Name())
			}
			per := preparedPerPortion(dish.Recipe, i)
			sums[class].Add(sums[class], per.Mul(per, dish.Scaled.Portions))
		}
	}
	for i := range list {
		l := &list[i]
		l.Grams = units.DecimalOf(sums[l.Class])
		layers := new(big.Rat).Quo(sums[l.Class], l.PerLayer.Rat())
		l.Layers = int(units.CeilTo(layers, big.NewRat(1, 1)).Num().Int64())
	}
	return list
}

// roundsOf is how many fillings of the steamer hold all loads.
func roundsOf(loads []LoadClass, tiers int) int {
	layers := 0
	for _, l := range loads {
		layers += l.Layers
	}
	return (layers + max(1, tiers) - 1) / max(1, tiers)
}
