using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Profile;

/// <summary>One capability list as received.</summary>
/// <param name="TimeUs">Microseconds from the start of the capture.</param>
/// <param name="MessageIndex">Counted from 1 over the messages of the capture.</param>
/// <param name="Message">Source_Capabilities, Sink_Capabilities or one of the EPR lists.</param>
/// <param name="Header">The message's header; bits that were not shown are 0.</param>
/// <param name="HeaderKnown">One bit for each bit of the header that was shown.</param>
/// <param name="Objects">The objects in order.</param>
/// <param name="InUse">Ports in use when it was received, in attach order; empty when not known.</param>
/// <param name="Repeats">How many more times the same list was received next.</param>
/// <param name="Pdp">The PD power that the list shows, or null.</param>
/// <param name="PdpBasis">How the PD power was learned.</param>
public sealed record Advertisement(
    long TimeUs, long MessageIndex, MessageKind Message, MessageHeader Header, ushort HeaderKnown,
    ImmutableArray<OfferedObject> Objects,
    ImmutableArray<string> InUse, long Repeats,
    Power? Pdp, PdpBasis PdpBasis)
{
    private const ushort RevisionBits = 0x00C0;
    private const ushort CountBits = 0x7000;
    private const int Revision3Code = 2;

    /// <summary>Sent by the partner of the captured port: nothing of it is held against the product.</summary>
    public bool ByPartner { get; init; }

    /// <summary>Whether the capture shows which side has which power role: a swap may have been missed, or not completed.</summary>
    public bool RoleIsCertain { get; init; } = true;

    /// <summary>Whether the captured port surely sent it.</summary>
    public bool IsOwn => !ByPartner && RoleIsCertain;

    /// <summary>Whether it was sent in EPR mode; null when the capture does not show the mode.</summary>
    public bool? InEprMode { get; init; }

    /// <summary>Whether an explicit contract was reached before it; a managed port may list less until then (R3.2v1.1, 6.4.11).</summary>
    public bool AfterContract { get; init; }

    /// <summary>Whether <see cref="InUse"/> stands in attach order.</summary>
    public bool OrderKnown { get; init; } = true;

    /// <summary>Currents may be rounded to steps of so many milliamperes; 0 when they are exact.</summary>
    public int CurrentRoundingMilliamperes { get; init; }

    /// <summary>Whether it may have had more objects: it was typed or quoted, and nobody says that it is whole.</summary>
    public bool MayBeCut { get; init; }

    /// <summary>Whether it was recognised on a photo and nobody has compared it: nothing rests on it.</summary>
    public bool IsUnchecked { get; init; }

    /// <summary>Whether its header shows how many objects it has; that of an EPR list never does.</summary>
    public bool CountIsKnown => (HeaderKnown & CountBits) == CountBits;

    /// <summary>One of the EPR lists, whose positions 1 to 7 are the SPR objects, zero-filled (R3.2v1.1, 6.5.15.1).</summary>
    public bool IsEpr => Message.Class == MessageClass.Extended;

    /// <summary>
    /// Whether the list may go on behind its last object: the count was not shown. Some kernels leave SPR AVS out, but no
    /// other object of an SPR list.
    /// </summary>
    public bool MayHideSprAvs => !IsEpr && !CountIsKnown && Objects.Length < MessageLimits.MaxSprObjects;

    /// <summary>How it came here.</summary>
    public ListEvidence Evidence { get; init; }

    /// <summary>Whether somebody read it off, so that no capture is behind it.</summary>
    public bool IsReadOff => Evidence is ListEvidence.Quoted or ListEvidence.Typed;

    /// <summary>Counts the attaches of the captured port: lists of one attach have the same number.</summary>
    public int Attach { get; init; }

    /// <summary>Whether its header says Revision 3.x, which gave bits 24 and 23 of the first object their meaning.</summary>
    public bool ShowsRevision3() => (HeaderKnown & RevisionBits) == RevisionBits && Header.RevisionCode == Revision3Code;

    /// <summary>The first object, when it is known to be a fixed supply.</summary>
    public OfferedObject? FirstFixed() => Objects is [var first, ..] && first.Is(PowerObjectKind.Fixed) ? first : null;
}
