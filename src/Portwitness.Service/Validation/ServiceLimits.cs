namespace Portwitness.Service.Validation;

/// <summary>What the service accepts. Every limit is in bytes, a count or a time; null means that there is none.</summary>
public sealed record ServiceLimits
{
    /// <summary>
    /// The largest gRPC message, in bytes, in either direction; beyond it a call ends with ResourceExhausted. Default
    /// 4 MiB: room for the largest text with its framing, so that a text that is too long is answered by its field's name.
    /// </summary>
    public int MessageBytes { get; init; } = 4 << 20;

    /// <summary>The largest body of a request over HTTP, in bytes: one message, in which bytes take a third more as JSON.</summary>
    public long HttpBodyBytes => 2L * MessageBytes;

    /// <summary>The largest piece of a file in one message, in bytes. Default 1 MiB.</summary>
    public int PieceBytes { get; init; } = 1 << 20;

    /// <summary>The longest product file or script, in bytes of UTF-8. Default 1 MiB. A label has limits of its own (<c>LabelLimits</c>).</summary>
    public int TextBytes { get; init; } = 1 << 20;

    /// <summary>The longest name of a file or port, in characters. Default 4096.</summary>
    public int NameCharacters { get; init; } = 4096;

    /// <summary>
    /// The most bytes of one uploaded file. Default null, no limit: captures are analysed as they come and are not kept.
    /// </summary>
    public long? FileBytes { get; init; }

    /// <summary>The most bytes of one file that is uploaded to be kept until it is judged. Default 16 GiB.</summary>
    public long UploadBytes { get; init; } = 16L << 30;

    /// <summary>The most files that one product may name. Default 1000.</summary>
    public int FilesPerProduct { get; init; } = 1000;

    /// <summary>How many messages of a capture go into one answer. Default 256.</summary>
    public int MessagesPerAnswer { get; init; } = 256;

    /// <summary>The most calls of one client at once, streams among them. Default 256.</summary>
    public int CallsAtOnce { get; init; } = 256;

    /// <summary>The most calls of one client in a second; twice as many may come in one burst. Default 1000.</summary>
    public int CallsPerSecond { get; init; } = 1000;

    /// <summary>The most connections of all clients. Default 1000.</summary>
    public int Connections { get; init; } = 1000;

    /// <summary>How long a client may send or take nothing in the middle of a call. Default 60 s.</summary>
    public TimeSpan Patience { get; init; } = TimeSpan.FromSeconds(60);

    /// <summary>The same for what is watched while it happens. Default 1 h.</summary>
    public TimeSpan WatchPatience { get; init; } = TimeSpan.FromHours(1);
}
