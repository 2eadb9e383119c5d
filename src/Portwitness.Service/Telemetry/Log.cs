using Microsoft.Extensions.Logging;

namespace Portwitness.Service.Telemetry;

/// <summary>
/// Every message that the service logs. Numbers are stable; names from clients never appear, and texts that may hold some are given as LogText.
/// </summary>
internal static partial class Log
{
    /// <summary>The category of the calls' messages, where no logger of theirs is at hand.</summary>
    public const string Category = "Portwitness.Service.WitnessService";

    [LoggerMessage(1, LogLevel.Debug, "Decoded a capture of {Bytes} bytes: {Messages} messages, {Findings} findings.")]
    public static partial void Decoded(ILogger logger, long bytes, long messages, int findings);

    [LoggerMessage(2, LogLevel.Debug, "Checked a product with {Files} files: {Findings} findings, {Verdict}.")]
    public static partial void Checked(ILogger logger, int files, int findings, string verdict);

    [LoggerMessage(3, LogLevel.Debug, "Read a label of {Characters} characters: {Outputs} outputs, {Unread} places unread.")]
    public static partial void LabelRead(ILogger logger, int characters, int outputs, int unread);

    [LoggerMessage(4, LogLevel.Information, "Refused a request: {Reason}")]
    public static partial void Refused(ILogger logger, string reason);

    [LoggerMessage(5, LogLevel.Debug, "A client went away during {Call}.")]
    public static partial void ClientLeft(ILogger logger, string call);

    [LoggerMessage(6, LogLevel.Error, "{Call} failed because of a fault in Portwitness itself: {Kind}, {Reason} {Stack}")]
    public static partial void Failed(ILogger logger, string call, string kind, string reason, string stack);

    [LoggerMessage(7, LogLevel.Debug, "Read a script of {Characters} characters: {Records} records, {Faults} faults.")]
    public static partial void Synthesized(ILogger logger, int characters, long records, int faults);

    [LoggerMessage(8, LogLevel.Debug, "Converted {Bytes} bytes: {Records} records written, {Faults} faults.")]
    public static partial void Converted(ILogger logger, long bytes, long records, int faults);

    [LoggerMessage(9, LogLevel.Debug, "Negotiated for {Devices} devices: {Offers} offers, {Faults} faults.")]
    public static partial void Negotiated(ILogger logger, int devices, int offers, int faults);

    [LoggerMessage(10, LogLevel.Warning, "Work waits: {Reason}")]
    public static partial void WorkDelayed(ILogger logger, string reason);

    [LoggerMessage(11, LogLevel.Warning, "Try {Number} of a submission failed: {Kind}, {Reason} {Stack}")]
    public static partial void WorkFailed(ILogger logger, int number, string kind, string reason, string stack);

    [LoggerMessage(12, LogLevel.Error, "Set the submission {Key} aside after {Tries} tries: {Reason}")]
    public static partial void WorkParked(ILogger logger, string key, int tries, string reason);

    [LoggerMessage(13, LogLevel.Information, "Put {Count} submissions into the queue that were kept and not in it.")]
    public static partial void Requeued(ILogger logger, int count);

    [LoggerMessage(14, LogLevel.Debug, "Checked many: {Judged} judged, {Refused} not.")]
    public static partial void CheckedMany(ILogger logger, int judged, int refused);

    [LoggerMessage(15, LogLevel.Debug, "Took an upload: {Bytes} bytes are kept.")]
    public static partial void Uploaded(ILogger logger, long bytes);

    [LoggerMessage(16, LogLevel.Information, "In {Seconds} s: {Counts}.")]
    public static partial void Counted(ILogger logger, long seconds, string counts);

    [LoggerMessage(17, LogLevel.Information, "Deleted what is older than it is kept: {Reports} reports, {Submissions} submissions.")]
    public static partial void Pruned(ILogger logger, long reports, long submissions);
}
