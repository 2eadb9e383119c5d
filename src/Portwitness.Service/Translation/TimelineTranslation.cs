using Portwitness.Analysis.Conversation;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>One line of the conversation.</summary>
internal static class TimelineTranslation
{
    public static Wire.TimelineEntry ToContract(this TimelineEntry entry)
    {
        Wire.TimelineEntry translated = new()
        {
            TimeUs = entry.TimeUs,
            GapUs = entry.GapUs,
            Kind = entry.Kind switch
            {
                TimelineKind.Message => "message",
                TimelineKind.Signal => "signal",
                _ => "event",
            },
            Direction = entry.Direction,
            Sop = entry.Sop,
            Name = entry.Name,
            Meaning = entry.Meaning,
            Retries = entry.Retries,
            Repeats = entry.Repeats,
            LastUs = entry.LastUs,
        };
        if (entry.MessageIndex > 0)
        {
            translated.MessageIndex = entry.MessageIndex;
        }

        if (entry.Acknowledged is { } acknowledged)
        {
            translated.Acknowledged = acknowledged;
        }

        return translated;
    }
}
