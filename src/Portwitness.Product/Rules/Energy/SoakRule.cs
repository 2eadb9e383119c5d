using Portwitness.Analysis.Rules;
using Portwitness.Product.Soaks;

namespace Portwitness.Product.Rules.Energy;

/// <summary>A rule about a load that was held.</summary>
public abstract class SoakRule : Rule
{
    /// <summary>The log of the examples: an hour at 20 V 3 A, which falls to 45 W after 18 minutes.</summary>
    private protected const string FallsBack = "time (s),volts,amps\n0,20,3\n1080,20,3\n1090,15,3\n1600,15,3\n2400,15,3\n3600,15,3\n";

    /// <summary>Looks at a soak, and reports what breaks this rule.</summary>
    public abstract void Check(Soak soak, IProductHitSink hits);

    private protected static ProductPlace PlaceOf(Soak soak, long? atUs = null) =>
        new(soak.Log.Log.Port ?? "", soak.Log.Log.InUse) { File = soak.Log.Log.File, TimeUs = atUs };
}
