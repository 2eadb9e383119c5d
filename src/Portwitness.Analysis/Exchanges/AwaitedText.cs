using Portwitness.Analysis.Phrases;
using Portwitness.Following.Exchanges;
using Portwitness.Following.Links;

namespace Portwitness.Analysis.Exchanges;

/// <summary>What an interval waited for, in words.</summary>
internal static class AwaitedText
{
    /// <summary>As it stands behind "for": "the next Request in PPS".</summary>
    public static string Of(in Interval interval) => interval.Awaited switch
    {
        Awaited.Answer => interval.Name,
        Awaited.GoodCrc => "GoodCRC",
        Awaited.Retry => $"a retry of {interval.Name}",
        Awaited.EprEntryEnd => "the end of EPR mode entry",
        Awaited.ResetAfterSoftReset => "the Hard Reset after a Soft_Reset that failed",
        Awaited.FirstList => $"the first {interval.Name}",
        Awaited.FirstListNeverCame => "the first Source_Capabilities, which never came",
        Awaited.NextList => "the next Source_Capabilities",
        Awaited.NextPpsRequest => "the next Request in PPS",
        Awaited.RequestAfterWait => $"{interval.Name} after Wait",
        Awaited.ResetAfterSilence => "the Hard Reset that ends a silence",
        Awaited.EprKeepAlive => "the next message in EPR mode",
        Awaited.SoftReset => "Soft_Reset after a message that was not acknowledged",
        Awaited.Chunk => "a chunk that was asked for",
        Awaited.ChunkRequest => "the request for a chunk",
        Awaited.ChunkRefusal => "Not_Supported to a chunk",
        Awaited.PsRdy => "PS_RDY",
        Awaited.OldSourceReady => "PS_RDY of the old source",
        Awaited.NewSourceReady => "PS_RDY of the new source",
        _ => "the new source's capabilities",
    };

    /// <summary>What an exchange owes: "an answer to Get_Source_Cap".</summary>
    public static Phrase Owed(Exchange exchange) => !exchange.IsInSequel ? Phrase.Of($"an answer to {exchange.Row.Name}")
        : exchange.Row.Sequel == Sequel.EprEntry ? "Enter Succeeded or Enter Failed after Enter Acknowledged"
        : Phrase.Of($"{exchange.Completion} after Accept");

    /// <summary>"the source".</summary>
    public static string Of(Party party) => party switch
    {
        Party.Source => "the source",
        Party.Sink => "the sink",
        Party.CablePlug => "the cable's marker",
        _ => "a port",
    };
}
