using Portwitness.Captures;
using Portwitness.PowerDelivery.VendorDefined;

namespace Portwitness.Synthesis;

/// <summary>The cable of a script: what the header states, and what the marker answers.</summary>
/// <param name="Captive">Fixed to the product; null when not stated.</param>
/// <param name="Amperes">3 or 5; null when not stated, and then there is no marker.</param>
/// <param name="Epr">An EPR cable.</param>
/// <param name="Silent">Does not answer Discover Identity, whatever is stated.</param>
internal sealed record CableMarker(bool? Captive, int? Amperes, bool Epr, bool Silent)
{
    private const int DiscoverIdentity = 1;
    private const int PassiveCable = 3;
    private const int PlugConnector = 3;

    /// <summary>No cable is stated, and nothing answers.</summary>
    public static CableMarker None { get; } = new(null, null, false, true);

    /// <summary>As the header states it; null when nothing is stated.</summary>
    public CaptureCable? Stated => Captive is null && Amperes is null ? null
        : new CaptureCable(Captive, Amperes * 1000, Amperes is null ? null : Epr);

    /// <summary>Whether Discover Identity is answered.</summary>
    public bool Answers => !Silent && Amperes is not null;

    /// <summary>Reads "5A detachable", "EPR captive", "3A silent", "none".</summary>
    public static CableMarker Read(ScriptWords words)
    {
        CableMarker cable = None with { Silent = words.Take("none") };
        for (bool any = cable.Silent; ; any = true)
        {
            CableMarker? more = cable.Silent ? null
                : words.Take("3A") ? cable with { Amperes = 3 }
                : words.Take("5A") ? cable with { Amperes = 5 }
                : words.Take("EPR") ? cable with { Amperes = 5, Epr = true }
                : words.Take("captive") ? cable with { Captive = true }
                : words.Take("detachable") ? cable with { Captive = false }
                : words.Take("silent") ? cable with { Silent = true }
                : null;
            if (more is null)
            {
                return any ? cable : throw ScriptFault.Value(
                    $"a cable was expected in \"{words.Text}\": 3A, 5A, EPR, captive, detachable, silent or none");
            }

            cable = more;
        }
    }

    /// <summary>The request that the source sends on SOP' (R3.2v1.1, 6.4.4.3.1).</summary>
    public static uint[] Request(int revisionCode) => [Header(revisionCode, VdmCommandType.Request)];

    /// <summary>The marker's answer: VDM header, ID header, Cert Stat, Product, passive cable VDO (R3.2v1.1, Figure 6.16).</summary>
    public uint[] Answer(int revisionCode)
    {
        bool isR20 = revisionCode < 2;
        uint identity = IdHeader.Create(0, PassiveCable, 0, isR20 ? 0 : PlugConnector, false, false, false).Raw;
        PassiveCableVdo vdo = PassiveCableVdo.Create(new CableCodes(
            Latency: 1, Termination: 0, MaximumVbus: Epr && !isR20 ? 3 : 0, Current: Amperes == 5 ? 2 : 1, Speed: 0,
            Plug: Captive == true ? 3 : 2, HardwareVersion: 1, FirmwareVersion: 1));
        return
        [
            Header(revisionCode, VdmCommandType.Ack), identity, 0, 0,
            isR20 ? vdo.Raw | VbusThroughCable : vdo.With(PassiveCableVdo.EprCapableField, Epr).Raw,
        ];
    }

    // R2.0 says of every cable whether VBUS goes through it.
    private static uint VbusThroughCable { get; } =
        CableVdoR20.Layout.Fields.Single(field => field.Name == "VBUS Through Cable").Mask;

    private static uint Header(int revisionCode, VdmCommandType type) =>
        VdmHeader.CreateStructured(VdmHeader.PdSid, revisionCode < 2 ? 0 : 1, 0, type, DiscoverIdentity).Raw;
}
