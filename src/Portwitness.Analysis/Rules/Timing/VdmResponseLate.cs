using System.Collections.Immutable;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Timing;

/// <summary>The answer to a structured VDM is held to tVDMReceiverResponse.</summary>
internal sealed class VdmResponseLate : TimingRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = Describe(
        "vdm-response-late",
        "A structured VDM is answered too late",
        "R3.2v1.1 Table 6.68 (tVDMReceiverResponse)",
        "Whoever asks for an identity gives up after 30 ms: a cable that is late is taken for one without a "
            + "marker, and 5 A or EPR are not offered.",
        new ScriptExample(
            """
            source: [5V 3A, 9V 3A]
            steps:
              - attach
              - advertise
              - contract 2 at 3A
              - send sink Vendor_Defined 0xFF00A001
              - pause 25ms
              - send source Vendor_Defined 0xFF00A081
            """,
            "The source answers Discover Identity after 27 ms."));

    /// <inheritdoc/>
    public override ImmutableArray<string> Parameters { get; } =
    [
        TimingLimits.TVDMReceiverResponse,
    ];
}
