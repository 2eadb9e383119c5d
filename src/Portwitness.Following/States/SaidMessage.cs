using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Following.States;

/// <summary>A message on SOP, as far as it can change a <see cref="PortState"/>.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Action">The action of EPR_Mode; null for other messages, and where it was not shown.</param>
/// <param name="FromSource">Its sender has the power role of the source.</param>
/// <param name="Index">Its index in the capture, counted from 1.</param>
public readonly record struct SaidMessage(MessageKind Kind, EprModeAction? Action, bool FromSource, long Index)
{
    /// <summary>Its MessageID shows that nothing of its sender is missing before it.</summary>
    public bool GoesOn { get; init; }

    /// <summary>Its MessageID leaves open whether a reset or an attach that the capture misses came before it.</summary>
    public bool MayBeginAnew { get; init; }

    /// <summary>A list that Get_Source_Cap or EPR_Get_Source_Cap may have asked for.</summary>
    public bool MayAnswer { get; init; }
}
