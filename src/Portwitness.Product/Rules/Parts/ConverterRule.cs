using Portwitness.Analysis.Rules;
using Portwitness.Product.Converters;

namespace Portwitness.Product.Rules.Parts;

/// <summary>A rule about the ports behind one converter.</summary>
public abstract class ConverterRule : Rule
{
    /// <summary>Looks at a converter and its ports, and reports what breaks this rule.</summary>
    public abstract void Check(ConverterUse use, IProductHitSink hits);

    private protected static ProductPlace PlaceOf(ConverterUse use) => new("", use.Converter.Ports);
}
