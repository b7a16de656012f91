//go:build !pocket

package pocket

func carried() (Program, bool) { return Program{}, false }
