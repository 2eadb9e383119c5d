using System.Collections.Immutable;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Synthesis;

/// <summary>
/// One list of a script. Source_Capabilities carries its SPR objects; EPR_Source_Capabilities carries all, with zeroes up
/// to position 7 and the EPR objects from position 8 on (R3.2v1.1, 6.5.15.1).
/// </summary>
internal sealed class CapabilitySet
{
    private readonly ImmutableArray<uint> _epr;

    public CapabilitySet(string name, IReadOnlyList<uint> objects)
    {
        Name = name;
        Spr = [.. objects.Where(word => !IsEpr(word))];
        _epr = [.. objects.Where(IsEpr)];
        int most = MessageLimits.LastCodableObjectPosition - MessageLimits.MaxSprObjects;
        if (Spr.Length is 0 or > MessageLimits.MaxSprObjects || _epr.Length > most)
        {
            throw ScriptFault.Value(
                $"a list has 1 to {MessageLimits.MaxSprObjects} SPR objects and at most {most} EPR objects, this one {Spr.Length} and {_epr.Length}");
        }
    }

    /// <summary>As the script names it; empty for the only one.</summary>
    public string Name { get; }

    /// <summary>The objects of SPR mode.</summary>
    public ImmutableArray<uint> Spr { get; }

    /// <summary>The objects of EPR mode, padding included.</summary>
    public ImmutableArray<uint> Epr =>
        [.. Spr, .. Enumerable.Repeat(0u, MessageLimits.MaxSprObjects - Spr.Length), .. _epr];

    private static bool IsEpr(uint word) => PowerObjectKinds.Of(word) switch
    {
        PowerObjectKind.EprAvs => true,
        PowerObjectKind.Fixed => new FixedSourceSupply(word).Voltage > Electrical.SprMaximumFixed,
        _ => false,
    };
}
