module mutation

go 1.26
