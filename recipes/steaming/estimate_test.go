package steaming

import "testing"

func TestQuick(t *testing.T) {
	p, _ := LookupCrop("potato", "")
	for _, s := range []string{"cube 20 mm", "cube 25 mm", "cube 30 mm", "whole 40 mm", "halves 45 mm", "quarters 55 mm", "wedges 65 mm"} {
		c, err := ParseCut(s)
		if err != nil {
			t.Fatal(err)
		}
		e, err := Steam(p, c, JustTender, Conditions{})
		t.Logf("%s %+v %v", c, e, err)
	}
}
