using Grpc.Core;

namespace Portwitness.Service.Telemetry;

/// <summary>Ties a refusal to its reason: a gRPC status alone does not say which limit was met.</summary>
internal static class Rejections
{
    private const string Key = "portwitness.rejection";

    /// <summary>Says why a call is refused, for whoever counts it.</summary>
    public static RpcException With(this RpcException exception, RejectionReason reason)
    {
        exception.Data[Key] = reason;
        return exception;
    }

    /// <summary>Why a call was refused; null when the refusal is an answer, such as a name that is not found.</summary>
    public static RejectionReason? Reason(this RpcException exception) =>
        exception.Data[Key] is RejectionReason reason ? reason : exception.StatusCode.Reason();

    /// <summary>Why a call was refused when nothing but its status tells.</summary>
    public static RejectionReason? Reason(this StatusCode status) => status switch
    {
        StatusCode.InvalidArgument => RejectionReason.Invalid,
        // Of gRPC itself, for a message that is too large.
        StatusCode.ResourceExhausted => RejectionReason.Size,
        StatusCode.Unauthenticated or StatusCode.PermissionDenied => RejectionReason.Token,
        _ => null,
    };
}
