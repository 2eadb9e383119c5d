using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Explanations;

using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>What a port says of itself, and one message bit by bit.</summary>
internal static class FactTranslation
{
    public static Wire.PortFact ToContract(this PortFact fact) => new()
    {
        Message = fact.Message,
        Sender = fact.Sender,
        MessageIndex = fact.MessageIndex,
        TimeUs = fact.TimeUs,
        Name = fact.Name,
        Value = fact.Value,
    };

    public static Wire.Explanation ToContract(this ExplainedMessage explained)
    {
        Wire.Explanation translated = new() { MessageIndex = explained.MessageIndex, Message = explained.Message };
        translated.Fields.AddRange(explained.Fields.Select(ToContract));
        return translated;
    }

    private static Wire.ExplainedField ToContract(ExplainedField field) => new()
    {
        Range = field.Range,
        Name = field.Name,
        Raw = field.Raw,
        Meaning = field.Meaning,
        Reserved = field.IsReserved,
        Known = field.IsKnown,
        Clause = field.Clause,
    };
}
