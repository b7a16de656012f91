package heat

// PotToBoil is how long, in minutes, so many grams of water take to boil on this
// stove, at a height above the sea in m, in a pot as heavy as the steamer's pan.
// Its error is of equipment that makes no steam to speak of.
func (e Equipment) PotToBoil(waterG, altitudeM float64) (float64, error) {
	s, err := e.stove()
	if err != nil {
		return 0, err
	}
	return s.toBoil(waterG/1e3, DefaultStartC, SteamC(altitudeM)) / 60, nil
}

// GasPerMinute is the fuel in g that the stove burns in a minute at full power;
// 0 where none is burnt or nothing is known of it.
func (e Equipment) GasPerMinute() float64 {
	s, err := e.stove()
	if err != nil {
		return 0
	}
	return s.burns(1)
}
