module floatarc

go 1.26

require (
	github.com/BurntSushi/toml v1.6.0
	github.com/agnivade/levenshtein v1.2.2
	gonum.org/v1/gonum v0.17.0
	pgregory.net/rapid v1.3.0
)
