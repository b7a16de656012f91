package heat

// LayerGrams is what one even layer of the steamer holds of pieces cut like that,
// in grams prepared, as [LoadPlan] lays them out. The errors are those of the
// equipment and the cut.
func LayerGrams(crop Crop, cut Cut, until Doneness, equipment Equipment, c Conditions) (float64, error) {
	s, err := equipment.stove()
	if err != nil {
		return 0, err
	}
	body, err := BodyOf(crop, cut)
	if err != nil {
		return 0, err
	}
	load := Load{Tiers: s.Tiers}
	load.layOut(crop, body, max(until, JustTender), s, c)
	return load.GramsPerLayer, nil
}
