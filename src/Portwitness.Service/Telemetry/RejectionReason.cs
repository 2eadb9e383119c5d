namespace Portwitness.Service.Telemetry;

/// <summary>Why a call was not served. A closed list, so that a counter has few rows whatever clients send.</summary>
public enum RejectionReason
{
    /// <summary>A field of the request is not what it should be.</summary>
    Invalid = 1,

    /// <summary>A message, a text, a file or their number is beyond a limit.</summary>
    Size = 2,

    /// <summary>Too many calls in a short time.</summary>
    Rate = 3,

    /// <summary>Too many calls at once.</summary>
    Streams = 4,

    /// <summary>No token, or one that is not accepted.</summary>
    Token = 5,

    /// <summary>The queue cannot take it now.</summary>
    Queue = 6,
}
