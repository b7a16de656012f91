module trencher

go 1.26.0

require (
	github.com/boombuler/barcode v1.1.0
	github.com/shopspring/decimal v1.6.0
	github.com/spf13/cobra v1.10.2
	github.com/stretchr/testify v1.12.1
	golang.org/x/net v0.62.0
	golang.org/x/text v0.44.0
	gopkg.in/yaml.v3 v3.0.1
)

require (
	github.com/inconshreveable/mousetrap v1.1.0 // indirect
	github.com/spf13/pflag v1.0.9
	go.yaml.in/yaml/v3 v3.0.5 // indirect
)
