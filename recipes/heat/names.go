package heat

// CropNames lists the crops that there are figures for, each once.
func CropNames() []string {
	var names []string
	for _, crop := range Crops() {
		if len(names) == 0 || names[len(names)-1] != crop.Name {
			names = append(names, crop.Name)
		}
	}
	return names
}

// DonenessNames lists how tender a piece can be asked for.
func DonenessNames() []string { return append([]string(nil), donenessWords[JustTender:]...) }
