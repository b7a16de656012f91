package units_test

import (
	_ "github.com/shopspring/decimal"
	_ "github.com/stretchr/testify/require"
	_ "gopkg.in/yaml.v3"
)
