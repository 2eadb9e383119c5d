using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Energy;

namespace Portwitness.Product.Rules.Energy;

/// <summary>A rule about what was measured of a product's energy.</summary>
public abstract class EnergyRule : Rule
{
    /// <summary>Looks at what was measured, and reports what breaks this rule.</summary>
    public abstract void Check(ProductEnergy product, IProductHitSink hits);

    private protected static ProductPlace PlaceOf(MeasuredLog log, long? atUs = null) =>
        new(log.Log.Port ?? "", []) { File = log.Log.File, TimeUs = atUs };

    private protected static Phrase Named(MeasuredLog log) => log.Log.AtText.Length > 0 ? Phrase.Of($"{log.Log.File} ({log.Log.AtText})") : $"{log.Log.File}";
}
