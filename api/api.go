package api

// New builds the service on the embedded tables. The error, which speaks of a
// broken build, says which table could not be read.
func New(config Config) (*Service, error) {
	loaded, err := loadTables()
	if err != nil {
		return nil, err
	}
	return newService(config, loaded, routes, limitsOfAll()), nil
}
