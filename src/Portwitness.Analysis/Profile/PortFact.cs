using System.Collections.Immutable;
using Portwitness.PowerDelivery.Explanations;

namespace Portwitness.Analysis.Profile;

/// <summary>Something that the port, its partner or the cable says of itself, with the message that says it.</summary>
/// <param name="Message">The message's name.</param>
/// <param name="Sender">"source", "sink" or "cable".</param>
/// <param name="MessageIndex">Counted from 1.</param>
/// <param name="TimeUs">Microseconds from the start of the capture.</param>
/// <param name="Name">The field, as the standard names it.</param>
/// <param name="Value">In words, with its unit.</param>
public sealed record PortFact(string Message, string Sender, long MessageIndex, long TimeUs, string Name, string Value);

/// <summary>One message bit by bit.</summary>
/// <param name="MessageIndex">Counted from 1.</param>
/// <param name="Message">The message's name.</param>
/// <param name="Fields">Every field in order, reserved ones included.</param>
public sealed record ExplainedMessage(long MessageIndex, string Message, ImmutableArray<ExplainedField> Fields);
