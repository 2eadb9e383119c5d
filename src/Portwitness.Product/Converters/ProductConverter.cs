using System.Collections.Immutable;

namespace Portwitness.Product.Converters;

/// <summary>A converter and the ports behind it, as "converters:" of a product file names them.</summary>
/// <param name="Name">Its name on the board.</param>
/// <param name="Ports">Two or more ports that it feeds.</param>
/// <param name="IsTraced">Whether somebody followed the copper from the converter to each of them.</param>
public sealed record ProductConverter(string Name, ImmutableArray<string> Ports, bool IsTraced);
